"""Verdict, bag, drill list, cut list, cost, papers, page, terminal and plan.json name the same hardware, in random jobs.

Six jobs, every way of holding and every other piece among them, run with all tests, each at two of five sizes;
``python -m tests.bench.every_case`` runs 30 at five sizes, with page and terminal of each.
"""

from __future__ import annotations

import io
import json
import os
import random
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import manifold3d
import pytest
from rich.console import Console

from planner.finding import Verdict
from planner.job import Job, read_job, with_changes
from planner.mesh import Solid
from planner.output import SIZES, bench_papers, html, page, plan_json, show_plan
from planner.output.bench.piece_words import bought
from planner.output.paper_files.paper_pdf import pdf
from planner.output.words.paper_words import head_of
from planner.plan import Plan, make_plan, prepare
from tests.conftest import TODAY
from tests.output.pages import pages_of
from tests.output.said import said
from tests.shapes import cylinder, solid_of, written

WHOLE = bool(os.environ.get("FITWRIGHT_WHOLE_GRID"))
JOBS_N = 30 if WHOLE else 6
SIZES_PERCENT = (84.0, 100.0, 118.0, 136.0, 160.0)
CLEAR = {"M2.5": (2.5, 2.9), "M3": (3.0, 3.4), "M4": (4.0, 4.5), "M5": (5.0, 5.5)}
FLATS = {"M2.5": 5.0, "M3": 5.5, "M4": 7.0, "M5": 8.0}
"""Across flats, ISO 4032."""
HELD = ("plain", "locking", "turning", "pilot", "pocket", "insert")
OTHERS = ("binding-post", "dowel-pin", "printed", "wood-screw", "bearing")
BOUGHT = re.compile(
    r"(?:machine-screw|wood-screw|binding-post|dowel-pin|nut|washer|insert) (?:M\d[\d.]*|#\d+|[\d.]+ mm)"
)


def _bored(*rounds: tuple[float, float, float, float], thick: float = 8.0) -> manifold3d.Manifold:
    """Return a plate of 44 x 40 mm with bores (x, y, diameter, depth from the top)."""
    body = manifold3d.Manifold.cube((44, 40, thick), True)
    for x, y, diameter, deep in rounds:
        body -= cylinder(diameter, deep + 1.0, 96).translate((x, y, thick / 2 - deep))
    return body


def _made(seed: int, folder: Path) -> Path:
    """Write a job of two plates with a screw, another piece of hardware and a strap, all chosen by a seed."""
    rng = random.Random(seed)  # noqa: S311  the same jobs each time
    label = rng.choice(list(CLEAR))
    mm, clear = CLEAR[label]
    held, other = HELD[seed % len(HELD)], OTHERS[seed % len(OTHERS)]
    wide = round(clear * rng.uniform(0.97, 1.03), 2)
    last = {"pilot": mm * 0.86, "insert": mm * 1.45}.get(held, clear)
    a = _bored((-12, -10, wide, 20), *([(12, -10, 5.3, 20)] if other in OTHERS[:3] else []))
    b = _bored((-12, -10, last, 20))
    screw = (
        f'[[hardware]]\nname = "main screw"\nkind = "machine-screw"\ndiameter_mm = {mm}\nstack_mm = 16.0\ncount = 2\n'
        f'bore_mm = {clear}\nfit = "{"turning" if held == "turning" else "sliding"}"\n'
    )
    joins = '["a"]' if held == "insert" else '["a", "b"]'
    screw += f"joins = {joins}\n"
    if held in ("plain", "locking", "turning"):
        screw += f'nut = "{"plain" if held == "turning" else held}"\n'
    elif held == "pilot":
        screw += f"pilot_mm = {last:.3f}\n"
    elif held == "pocket":
        over = (FLATS[label] + 0.4) * 2 / 3**0.5
        b -= manifold3d.Manifold.cylinder(10, over / 2, over / 2, 6).translate((-12, -10, 1.0))
        screw += (
            f'[[hardware]]\nname = "pocket nut"\nkind = "nut"\ndiameter_mm = {mm}\nbore_mm = {over:.3f}\n'
            'joins = ["b"]\ncount = 2\n'
        )
    else:
        screw += (
            f'[[hardware]]\nname = "the insert"\nkind = "insert"\ndiameter_mm = {mm}\nbore_mm = {last:.3f}\n'
            'joins = ["a", "b"]\ncount = 2\n'
        )
        a -= cylinder(last, 7, 96).translate((-12, 10, -2))
    parts = {"a": solid_of(a), "b": solid_of(b)}
    more = _another(other, parts)
    slot = rng.choice([16.5, 21.5, 26.5])
    parts["s"] = solid_of(manifold3d.Manifold.cube((40, 16, 4), True) - manifold3d.Manifold.cube((slot, 4, 9), True))
    strap = f'[[strap]]\nname = "band"\npart = "s"\nwebbing_mm = {slot - 1.5}\nslot_mm = {slot}\naround_mm = 150.0\n'
    tables = ""
    for name, solid in parts.items():
        written(solid, folder / f"{name}.stl")
        own = 'scale = 100.0\nduty = "pin"\n' if name == "pin" else 'duty = "load"\n'
        tables += f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\ncount = {2 if name == "b" else 1}\n{own}'
    path = folder / "job.toml"
    path.write_text(f'[job]\nname = "job {seed}"\nmaterial = "petg"\n{tables}{screw}{more}{strap}', encoding="utf-8")
    return path


def _another(kind: str, parts: dict[str, Solid]) -> str:
    """Return the table of another piece of hardware, in the bore of 5.3 mm where it fits one."""
    rows = {
        "binding-post": (5.0, 5.3, "turning"),
        "dowel-pin": (5.0, 5.3, "held"),
        "printed": (5.0, 5.3, "sliding"),
        "wood-screw": (4.1656, 3.6, "pilot"),
        "bearing": (8.0, 22.2, "held"),
    }
    mm, bore, fit = rows[kind]
    if kind in ("wood-screw", "bearing"):
        parts["c"] = solid_of(_bored((0, 0, bore, 7.0 if kind == "bearing" else 20.0), thick=9.0))
    if kind == "printed":
        parts["pin"] = solid_of(cylinder(5.0, 20.0, 64))
    part = "c" if "c" in parts else "a"
    return (
        f'[[hardware]]\nname = "other piece"\nkind = "{"dowel-pin" if kind == "printed" else kind}"\n'
        f'diameter_mm = {mm}\nbore_mm = {bore}\nfit = "{fit}"\njoins = ["{part}"]\n'
        + ("size_mm = 22.0\n" if kind == "bearing" else "stack_mm = 14.0\n")
        + ('printed = "pin"\n' if kind == "printed" else "")
    )


def _stated(job: Job, name: str) -> str:
    """Return the size that a job states for a piece, as the tables call it."""
    one = next(h for h in job.hardware if h.name == name)
    sizes = [s for s in job.tables.sizes(one.kind) if one.kind != "bearing" or s.label == "8 × 22 × 7"]
    near = min(sizes, key=lambda size: abs(size.diameter_mm.value - one.diameter_mm))
    return near.label


def _judged(plan: Plan) -> dict[str, str]:
    """Return the size of every piece of the job as the verdict has it: that of a finding's work, else the stated one."""
    job = plan.job
    sizes = {one.name: _stated(job, one.name) for one in job.hardware}
    for finding in plan.findings:
        if finding.work and finding.work.kind == "stock":
            assert finding.work.takes in finding.remedy
            sizes[finding.work.hardware] = finding.work.takes.split(" ")[0]
    if "pocket nut" in sizes:
        sizes["pocket nut"] = sizes["main screw"]
    if "the insert" in sizes:
        sizes["the insert"] = sizes["main screw"]
    return sizes


def _contradictions(plan: Plan) -> list[str]:
    """Return what one place says of hardware and another does not."""
    found = []
    told: dict[str, Any] = json.loads(json.dumps(plan_json(plan)))
    lines = {line["name"]: line for line in told["hardware"]}
    papers = {sheet.name: said(sheet) for sheet in bench_papers(plan, SIZES["a4"])}
    for name, size in _judged(plan).items():
        line = lines[name]
        if not line["size"].startswith(size) or bool(line["instead_of"]) != (size != _stated(plan.job, name)):
            found.append(f"plan.json: {name} is {line['size']}, the verdict has {size}")
        if line["printed"] and line["instead_of"]:
            found.append(f"{name} is printed, and {line['size']} is taken instead")
        if line["printed"] and (line["price"] or "nothing is bought" not in papers["assembly"]):
            found.append(f"{name} is printed and bought")
    for line in plan.hardware:
        bag, steps = papers["bags"], papers["assembly"]
        if not line.printed and bought(line) not in bag:
            found.append(f"bags: {line.name}")
        if not line.goes_with and bought(line) not in steps:
            found.append(f"assembly: {line.name}")
        if line.goes_with and f"{line.kind}" not in steps:
            found.append(f"assembly: {line.name} goes with {line.goes_with}")
        if line.goes_with and line.kind != "bush" and not line.size.startswith(lines[line.goes_with]["size"]):
            found.append(f"{line.name} is {line.size}")
    named = {f"{line.kind} {line.size}" for line in plan.hardware}
    texts = {"assembly": papers["assembly"], "drill": papers["drill"], "record": papers["record"]}
    found += [
        f"{paper}: {one}"
        for paper, text in texts.items()
        for one in BOUGHT.findall(text)
        if not any(size.startswith(one) for size in named)
    ]
    works = [f for f in plan.findings if f.work is not None]
    found += [f"drill list: {f.feature}, {f.remedy}" for f in works if f.remedy not in papers["drill"]]
    webbing = {f.work.hardware: f.work.takes_mm for f in works if f.work and f.work.kind == "webbing"}
    for cut in told["cuts"]:
        stated = next(strap.webbing_mm for strap in plan.job.straps if strap.name == cut["name"])
        if cut["width_mm"] != webbing.get(cut["name"], stated) or f"{cut['width_mm']:g} mm" not in papers["cut"]:
            found.append(f"cut list: {cut['name']} is {cut['width_mm']} mm")
    bushes = sum(f.work.kind == "bush" for f in works if f.work)
    if bool(bushes) != any(line.kind == "bush" for line in plan.hardware):
        found.append("bushes")
    if plan.cost is not None:
        cost = next(one.amount.value for one in plan.cost.lines if one.what == "hardware")
        if cost != pytest.approx(sum(line["price"] or 0.0 for line in told["hardware"])):
            found.append(f"cost: {cost}")
    return found


class _Cells(HTMLParser):
    """Reads the cells of the rows of one table body, by its id, and all text that a person sees."""

    def __init__(self, body: str) -> None:
        super().__init__()
        self.body, self.rows, self.text = body, list[list[str]](), list[str]()
        self._inside, self._hidden = False, 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a table body, a row or a cell."""
        self._hidden += tag in ("script", "style")
        self._inside = self._inside or (tag == "tbody" and dict(attrs).get("id") == self.body)
        if self._inside and tag == "tr":
            self.rows.append([])
        elif self._inside and tag in ("td", "th"):
            self.rows[-1].append("")

    def handle_endtag(self, tag: str) -> None:
        """End a table body."""
        self._hidden -= tag in ("script", "style")
        self._inside = self._inside and tag != "tbody"

    def handle_data(self, data: str) -> None:
        """Add text to the open cell."""
        if not self._hidden:
            self.text.append(data)
        if self._inside and self.rows and self.rows[-1]:
            self.rows[-1][-1] += data


def _read(html_text: str, body: str = "") -> _Cells:
    """Return what the standard library's own parser reads of a page."""
    cells = _Cells(body)
    cells.feed(html_text)
    return cells


def _on_screen(plan: Plan) -> list[str]:
    """Return what the page, the papers as HTML or the terminal say of hardware and plan.json does not."""
    found = []
    told: dict[str, Any] = json.loads(json.dumps(plan_json(plan)))
    rows = [[" ".join(cell.split()) for cell in row] for row in _read(page(plan), "hardware-rows").rows]
    wanted = [
        [
            f"{line['name']} {line['kind']}",
            f"{line['count']}" + (f" + {line['spares_n']}" if line["spares_n"] else ""),
            line["size"],
            f"{line['length_mm']:g} mm" if line["length_mm"] else "",
        ]
        for line in told["hardware"]
    ]
    found += [f"page: {row[:4]}" for row in rows if row[:4] not in wanted]
    found += [f"not on the page: {line}" for line in wanted if line not in [row[:4] for row in rows]]
    sheets = bench_papers(plan, SIZES["a4"])
    papers = "".join("".join(_read(text).text) for text in html(sheets, head_of(plan), SIZES["a4"]).values())
    papers = "".join(papers.split())  # numbers are kept with their units by tags of their own
    bought_of = {one.name: "".join(bought(one).split()) for one in plan.hardware if not one.printed}
    found += [f"papers as HTML: {name}" for name, told_of in bought_of.items() if told_of not in papers]
    console = Console(file=io.StringIO(), width=200, force_terminal=False)
    show_plan(console, plan, Path("plan.html"))
    assert isinstance(console.file, io.StringIO)
    screen = " ".join(console.file.getvalue().split())
    for finding in plan.remedies.shown(plan.findings):
        if finding.work is None:
            continue
        if finding.verdict is not Verdict.GO and finding.remedy not in screen:
            found.append(f"terminal: {finding.why} has no {finding.remedy}")
        if finding.work.kind == "stock" and finding.work.takes.split(" ")[0] not in finding.remedy.split():
            found.append(f"terminal: {finding.remedy}, built with {finding.work.takes}")
        if finding.work.kind == "bush" and "bush" not in finding.remedy:
            found.append(f"terminal: {finding.remedy}, built with a bush")
        if finding.work.kind == "webbing" and f"{finding.work.takes_mm:g} mm webbing" not in finding.remedy:
            found.append(f"terminal: {finding.remedy}, built with webbing of {finding.work.takes_mm} mm")
    return found


@pytest.mark.parametrize("seed", range(JOBS_N))
def test_all_places_name_the_same_hardware(seed: int, tmp_path: Path) -> None:
    """Whatever size a screw, its nut, a bush or webbing is built with: every place that names it names that one."""
    job = read_job(_made(seed, tmp_path))
    sizes = SIZES_PERCENT if WHOLE else [SIZES_PERCENT[(seed + step) % len(SIZES_PERCENT)] for step in (0, 2)]
    plans = [make_plan(prepare(with_changes(job, percent=percent), TODAY)) for percent in sizes]

    assert {plan.scale_percent: told for plan in plans if (told := _contradictions(plan))} == {}
    for plan in plans if WHOLE else plans[: seed % 2]:
        assert _on_screen(plan) == [], plan.scale_percent
    assert any(finding.work for plan in plans for finding in plan.findings), "no size asks for anything: no test"


def test_the_printed_papers_name_it_too(tmp_path: Path) -> None:
    """An independent reader of the PDF finds every piece in it, with its length."""
    plan = make_plan(prepare(with_changes(read_job(_made(0, tmp_path)), percent=136.0), TODAY))
    sheets = bench_papers(plan, SIZES["a4"])
    text = " ".join(" ".join(page.text for page in pages_of(pdf(sheets, head_of(plan), SIZES["a4"]))).split())
    sizes = {line.size for line in plan.hardware if line.kind != "bush"}

    assert any(line.instead_of for line in plan.hardware)
    assert [size for size in sizes if size not in text] == []

"""The report: every key of the contract, an offline page that escapes, pictures where placements are."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from html.parser import HTMLParser
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import pytest

from planner.job import Spool, read_job
from planner.mesh import read_solid
from planner.output import chapter_json, page, plan_json, window_json, write_papers, write_plan
from planner.packing import placed_outline
from planner.plan import Plan, make_plan, prepare
from tests.conftest import MakeJob
from tests.plan.jobs import changed
from tests.shapes import Manifold, bored_plate, cuboid, solid_of

TODAY = date(2026, 12, 1)


@pytest.fixture(name="plan", scope="module")
def _plan(tmp_path_factory: pytest.TempPathFactory, heron: Path) -> Iterator[Plan]:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(tmp_path_factory.mktemp("cache")))
        yield make_plan(prepare(read_job(heron), TODAY))


@pytest.fixture(name="html", scope="module")
def _html(plan: Plan) -> str:
    return page(plan)


KEYS = {
    "": "verdict scale_percent plates totals worn_g material schedule hardware cuts findings",
    "plates": "number material colour duration_s mass_g file placements",
    "plates.placements": "part copy x_mm y_mm turn_deg",
    "totals": "duration_s mass_g cost",
    "totals.duration_s": "value low high",
    "material": "choice reasons rejected",
    "schedule": "plate printer start end",
    "findings": "rule part verdict measured limit unit at_mm why remedy source caution",
}


@pytest.mark.parametrize("place", KEYS)
def test_every_key_of_the_contract_is_there(plan: Plan, place: str) -> None:
    """The plan's JSON has each key that checks rely on, and is finite JSON."""
    found: Any = json.loads(json.dumps(plan_json(plan), allow_nan=False))
    for key in filter(None, place.split(".")):
        found = found[key][0] if isinstance(found[key], list) else found[key]

    assert set(KEYS[place].split()) <= set(found)


def test_the_plan_is_whole(plan: Plan) -> None:
    """Every copy lies on a plate; sums add up; the Heron goes with its work and is lighter than its limit."""
    copies = sum(len(plate.placements) for plate in plan.plates)

    assert copies == sum(part.part.count for part in plan.parts) == 27
    assert plan.totals.mass_g is not None
    assert plan.totals.mass_g.value == pytest.approx(sum(p.mass_g.value for p in plan.plates if p.mass_g))
    assert plan.verdict.value == "go-with-work"
    assert plan.worn_g is not None
    assert plan.worn_g < 250.0


class _Page(HTMLParser):
    """Collects what a test asks about."""

    def __init__(self) -> None:
        super().__init__()
        self.headings: list[int] = []
        self.unlabelled: list[str] = []
        self.loads: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note headings, pictures without a label, and what would be loaded."""
        named = dict(attrs)
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if (tag == "img" and not named.get("alt")) or (tag == "svg" and not named.get("aria-label")):
            self.unlabelled.append(tag)
        for key in ("src", "href"):
            value = named.get(key) or ""
            if value and not value.startswith(("#", "data:")):
                (self.links if (tag, key) == ("a", "href") else self.loads).append(value)


def test_the_page_loads_nothing_and_labels_everything(html: str) -> None:
    """No request leaves the file, every picture has a label, headings go down one step at a time."""
    read = _Page()
    read.feed(html)

    assert read.loads == read.links == []
    assert "@import" not in html
    assert "url(" not in html.replace("url(#", "")  # a pattern in the drawing itself
    assert read.unlabelled == []
    assert read.headings[0] == 1
    assert all(b - a <= 1 for a, b in zip(read.headings, read.headings[1:], strict=False))
    assert len(html) < 8_000_000


def test_the_verdict_comes_first(html: str) -> None:
    """Before anything else that is said, the verdict, the scale and the first cause."""
    body = html[html.index("<main>") :]

    assert body.index("Go, with work") < body.index("First cause") < body.index("Stations")


def test_plates_are_drawn_where_they_lie(plan: Plan, html: str) -> None:
    """Each copy's path has the bounds of its placement, within a tenth of a mm."""
    depth = plan.job.printer.bed.size_mm[1]
    rings = {part.part.name: part.outline_mm for part in plan.parts}
    for plate in plan.plates:
        for place in plate.placements:
            x0, y0, x1, y1 = placed_outline(rings[place.part], place).bounds
            found = re.findall(
                rf'data-part="{place.part}" data-copy="{place.copy}"><path class="copy" fill-rule="evenodd" d="([^"]+)"',
                html,
            )
            points = [tuple(map(float, pair.split(","))) for pair in re.findall(r"-?[\d.]+,-?[\d.]+", found[0])]
            xs, ys = [p[0] for p in points], [depth - p[1] for p in points]
            assert (min(xs), min(ys), max(xs), max(ys)) == pytest.approx((x0, y0, x1, y1), abs=0.1)


def test_the_three_clocks_are_told(plan: Plan, html: str) -> None:
    """When it is ready, by plan and in 90 of 100 plays, and what to start tonight."""
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    assert plan.coupon is not None
    assert plan.coupon.tonight in html
    assert f"{plan.clocks.ready:%H:%M}" in html.split("Three clocks:")[1].split("</p>", maxsplit=1)[0]


def test_hostile_names_are_escaped(make_job: MakeJob) -> None:
    """A name that looks like a script stays a name."""
    text = '[job]\nname = "<script>alert(1)</script>"\nmaterial = "petg"\n[[part]]\nname = "<b>x</b>"\nmesh = "a.stl"\nduty = "cover"\n'
    plan = make_plan(prepare(make_job(text, a=cuboid(30, 20, 5)), TODAY))
    written = page(plan)

    assert "<script>alert" not in written
    assert "<b>x</b>" not in written


def test_the_folder_holds_everything(plan: Plan, tmp_path: Path) -> None:
    """Report, JSON, plates as 3MF and STL, parts at size with percent and side in their names."""
    write_plan(plan, tmp_path)
    names = {path.relative_to(tmp_path).as_posix() for path in tmp_path.rglob("*") if path.is_file()}

    assert {"report.html", "plan.json", "plates/plate-01.3mf", "plates/plate-01.stl"} <= names
    assert "parts/cuff-106.5pc-left.stl" in names
    cuff = read_solid(tmp_path / "parts" / "cuff-106.5pc-left.stl")
    drawn = next(part.solid for part in plan.parts if part.part.name == "cuff")
    assert cuff.volume_mm3 == pytest.approx(drawn.volume_mm3 * 1.065**3, rel=1e-4)


def test_the_report_names_the_papers_that_lie_beside_it(plan: Plan, tmp_path: Path) -> None:
    """Links lead to files that are there, in the folder of the report and below; nothing is loaded, and each is told."""
    write_papers(plan, tmp_path)
    (tmp_path / "bench" / "more & 100 % #1.html").write_text("a paper of somebody's own", encoding="utf-8")
    report = write_plan(plan, tmp_path)
    read = _Page()
    read.feed(report.read_text(encoding="utf-8"))

    assert read.loads == []
    assert [link for link in read.links if "//" in link or ".." in link or link.startswith("/")] == []
    assert [link for link in read.links if not (tmp_path / unquote(link)).is_file()] == []
    there = {path.relative_to(tmp_path).as_posix() for path in (tmp_path / "bench").iterdir()}
    assert set(map(unquote, read.links)) == there


def test_an_unsound_mesh_withholds_grams_and_is_still_planned(make_job: MakeJob, tmp_path: Path) -> None:
    """What could be computed is written, the rest is null with a reason."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    part = solid_of(Manifold.cube((30, 20, 10)) + Manifold.cube((10, 10, 20)))
    job = make_job(text, a=part)
    raw = bytearray((tmp_path / "a.stl").read_bytes())
    raw[80:84] = (int.from_bytes(raw[80:84], "little") - 6).to_bytes(4, "little")
    (tmp_path / "a.stl").write_bytes(raw[: -6 * 50])
    plan = make_plan(prepare(job, TODAY))
    found: Any = plan_json(plan)

    assert plan.verdict.value == "hold"
    assert found["totals"]["mass_g"] is None
    assert "unsound" in found["totals"]["withheld"]
    assert found["totals"]["duration_s"]["value"] > 0
    assert "withheld" in page(plan)


def test_a_part_that_fits_no_plate_is_said(make_job: MakeJob) -> None:
    """A part too long for the bed is in the findings, and the rest is planned."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "cover"\n' for name in ("long", "short")
    )
    plan = make_plan(prepare(make_job(text, long=cuboid(400, 20, 5), short=cuboid(30, 20, 5)), TODAY))

    assert [f.part for f in plan.findings if f.rule == "plate.unplaced"] == ["long"]
    assert [place.part for plate in plan.plates for place in plate.placements] == ["short"]


def test_a_layout_that_does_not_hold_is_never_written(make_job: MakeJob, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the proof finds anything, there are no plates and the finding holds."""
    monkeypatch.setattr("planner.plan.plates.packed_plates.verify", lambda *_, **__: ("a 1 and b 1 overlap",))
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
    plan = make_plan(prepare(make_job(text, a=cuboid(30, 20, 5)), TODAY))

    assert plan.plates == ()
    assert "plate.proof" in {f.rule for f in plan.findings if f.verdict.value == "hold"}
    assert "withheld" in page(plan)


def test_names_that_a_file_cannot_tell_apart_get_files_of_their_own(make_job: MakeJob) -> None:
    """Two parts called "a b" and "a-b" do not overwrite each other."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
        f'[[part]]\nname = "{name}"\nmesh = "m.stl"\nduty = "cover"\n' for name in ("a b", "a-b")
    )
    plan = make_plan(prepare(make_job(text, m=cuboid(30, 20, 5)), TODAY))

    assert len({part.file for part in plan.parts}) == 2


def test_the_plates_heading_tells_the_order_in_which_they_start(plan: Plan) -> None:
    """Numbers need not be the calendar's order: the heading says which it is."""
    runs = [run for run in plan.runs if run.start is not None]
    assert len(runs) > 2
    turned = changed(plan, runs=(runs[0], *reversed(runs[1:])))
    told = ", ".join(str(run.plate) for run in turned.runs)

    assert "Plates, in this order" in page(plan)
    assert f"Plates, to print in the order {told}" in page(turned)


def test_a_chapter_adds_up(plan: Plan) -> None:
    """Sums over two recipients are twice one; spools and verdicts are listed."""
    sums: Any = chapter_json({"a": plan, "b": plan})
    one: Any = plan_json(plan)

    assert sums["totals"]["mass_g"] == pytest.approx(2 * one["totals"]["mass_g"]["value"])
    assert sums["totals"]["duration_s"] == pytest.approx(2 * one["totals"]["duration_s"]["value"])
    assert [job["verdict"] for job in sums["jobs"]] == ["go-with-work"] * 2
    assert sums["filament"][0]["spools"] == 1


def test_a_spool_that_feeds_each_job_alone_holds_the_chapter_that_it_does_not_feed(plan: Plan, tmp_path: Path) -> None:
    """By hand: both need 1.15 times their grams of one spool that both list; their printer runs both; logs are counted."""
    assert plan.totals.mass_g is not None
    grams = plan.totals.mass_g.value
    log = "plate,planned_h,real_h,outcome,cause,failed_at_h\na,4,5,done,,\nb,4,,failed,loose,2\n"
    plans = {}
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        spool = Spool(material=plan.material.name, colour="any", left_g=1.5 * grams)
        job = replace(plan.job, path=tmp_path / name / "job.toml", spools=(spool,))
        plans[name] = changed(plan, job=job)
    (tmp_path / "a" / "print-log.csv").write_text(log, encoding="utf-8")
    alone: Any = chapter_json({"a": plans["a"]})
    both: Any = chapter_json(plans)

    assert alone["verdict"] == plan.verdict.value
    assert not any(row["short_g"] for row in alone["spools"])
    assert both["verdict"] == "hold"
    assert sum(row["need_g"] for row in both["spools"]) == pytest.approx(2 * grams)
    assert max(row["short_g"] for row in both["spools"]) > 0
    assert sum(row["plates"] for row in both["printers"]) == 2 * len(plan.plates)
    assert [(row["plates"], row["failed"], row["hours"]) for row in both["prints"]] == [(2, 1, 7.0)]


def test_an_empty_window_is_null_with_causes(make_job: MakeJob) -> None:
    """Nulls stand for an end that nothing bounds, and for an empty window with its causes."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    from planner.size import window

    ready = prepare(make_job(text, a=bored_plate(40, 30, 8, [(20, 15, 6.35, 48)])), TODAY)
    found: Any = window_json(window(ready.bound.rules, 100.0), (), 100.0)

    assert found["workable"]["low_percent"] is None
    assert found["workable"]["causes"][0]["rule"] == "bore.unclaimed"


def test_the_page_tells_beside_each_plate_why_it_may_fail(plan: Plan, html: str) -> None:
    """Under every plate: its chance to fail, and the reason of its failure rate."""
    articles = html.split('<article class="plate"')[1:]

    assert len(articles) == len(plan.plates)
    for text, batch in zip(articles, plan.batches, strict=True):
        assert f"May fail: {batch.whole.failure_percent:.1f} %" in text
        assert batch.why.split(":")[0].replace("'", "&#39;") in text

"""The report: an offline page that escapes, pictures where placements are, the verdict first."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote

import pytest

from planner.output import page
from planner.packing import placed_outline
from planner.plan import Plan, make_plan, prepare
from tests.conftest import MakeJob
from tests.output.conftest import Reports
from tests.plan.jobs import changed
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)


@pytest.fixture(name="html", scope="module")
def _html(reports: Reports) -> str:
    return reports.page("heron").read_text(encoding="utf-8")


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

    assert body.index("Go, with work") < body.index("What decides.") < body.index("Stations")


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
    """When it is ready, by plan and in 90 % of simulated runs, and what to start tonight."""
    assert plan.clocks is not None
    assert plan.clocks.ready is not None
    assert plan.coupon is not None
    assert plan.coupon.tonight in html
    assert f"{plan.clocks.ready:%H:%M}" in html.split("Time:</strong> printing")[1].split("</p>", maxsplit=1)[0]


def test_hostile_names_are_escaped(make_job: MakeJob) -> None:
    """A name that looks like a script stays a name."""
    text = '[job]\nname = "<script>alert(1)</script>"\nmaterial = "petg"\n[[part]]\nname = "<b>x</b>"\nmesh = "a.stl"\nduty = "cover"\n'
    plan = make_plan(prepare(make_job(text, a=cuboid(30, 20, 5)), TODAY))
    written = page(plan)

    assert "<script>alert" not in written
    assert "<b>x</b>" not in written


def test_the_report_names_the_papers_that_lie_beside_it(heron_folder: Path) -> None:
    """Links lead to files that are there, in the folder of the report and below; nothing is loaded, and each is told."""
    read = _Page()
    read.feed((heron_folder / "report.html").read_text(encoding="utf-8"))

    assert read.loads == []
    assert [link for link in read.links if "//" in link or ".." in link or link.startswith("/")] == []
    assert [link for link in read.links if not (heron_folder / unquote(link)).is_file()] == []
    there = {path.relative_to(heron_folder).as_posix() for path in (heron_folder / "bench").iterdir()}
    assert set(map(unquote, read.links)) == there


def test_the_plates_heading_tells_the_order_in_which_they_start(make_job: MakeJob) -> None:
    """Numbers need not be the calendar's order: the heading says which it is."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\ncount = 3\n'
    text += '[plan]\nstart = 2026-12-01T17:30:00\nattended = ["Mon-Sun 08:00-24:00"]\n'
    plan = make_plan(prepare(make_job(text, a=cuboid(180, 180, 2)), TODAY))  # by area alone one fills a plate
    runs = sorted((run for run in plan.runs if run.start is not None), key=lambda run: run.plate)
    assert len(runs) > 2
    turned = (runs[0], *reversed(runs[1:]))
    told = ", ".join(str(run.plate) for run in turned)

    assert "Plates, in this order" in page(changed(plan, runs=tuple(runs)))
    assert f"Plates, to print in the order {told}" in page(changed(plan, runs=turned))


def test_the_page_tells_beside_each_plate_why_it_may_fail(plan: Plan, html: str) -> None:
    """Under every plate: its chance to fail, and the reason of its failure rate."""
    articles = html.replace("\u00a0", " ").split('<article class="plate"')[1:]

    assert len(articles) == len(plan.plates)
    by_number = {int(text.partition('aria-label="Plate ')[2].partition('"')[0]): text for text in articles}
    for number, batch in enumerate(plan.batches, 1):
        text = by_number[number]
        assert f"Risk of failure: {batch.whole.failure_percent:.1f} %" in text
        assert batch.why.split(":")[0].replace("'", "&#39;") in text


def test_a_part_shows_what_its_pose_costs_term_by_term(make_plan_of: Callable[..., Plan]) -> None:
    """Every term that costs anything stands in the part's details with its minutes, the next best pose's beside it."""
    made = make_plan_of()
    (part,) = made.parts
    text = page(made).replace("\u00a0", " ").split("what it costs, in minutes of printing")[1].split("</table>")[0]
    mine, theirs = part.pose.terms, part.pose.runner_up_terms

    assert len(mine) == len(theirs)
    for one, other in zip(mine, theirs, strict=True):
        row = f'<td class="r">{one.cost_min:.0f}</td><td class="r">{other.cost_min:.0f}</td>'
        assert (one.told in text and row in text) or not (one.cost_min or other.cost_min)
    total = [sum(term.cost_min for term in terms) for terms in (mine, theirs)]
    assert text.endswith(f'<td class="r">{total[0]:.0f}</td><td class="r">{total[1]:.0f}</td></tr></tbody>')

"""A plan in a terminal: the verdict first, every plate in the order of its start, nothing beyond 80 columns."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.output import chapter_json, show_chapter, show_plan
from planner.plan import Plan
from tests.output.terminal.consoles import console
from tests.plan.jobs import changed


def test_the_verdict_comes_first_and_the_report_last(plan: Plan) -> None:
    """Verdict, then what decides, then the plates; at the end where the report is."""
    out, written = console()
    show_plan(out, plan, Path("report.html"))
    text = written.getvalue()

    assert text.startswith("GO-WITH-WORK")
    assert text.index("What decides") < text.index("What to print when") < text.index("report: report.html")
    assert max(map(len, text.splitlines())) <= 80


def test_each_plate_has_its_row(plan: Plan) -> None:
    """Number, pieces, time, risk and mass of each plate, and the totals below."""
    out, written = console()
    show_plan(out, plan, Path("report.html"))
    lines = written.getvalue().splitlines()

    for plate, batch in zip(plan.plates, plan.batches, strict=True):
        row = next(line for line in lines if line.startswith(f"{plate.number} "))
        assert f"{plate.duration_s.value / 3600:.1f} h" in row
        assert f"{batch.whole.failure_percent:.0f} %" in row
        assert f"{plate.mass_g.value:.0f} g" in row if plate.mass_g else "withheld" in row
    assert any(line.startswith("All plates: ") for line in lines)


def test_a_chapter_shows_each_job_and_the_sums(plan: Plan) -> None:
    """Two jobs: both stand there, with spools, ledger and sums, within 80 columns."""
    plans = {"a": plan, "b": changed(plan, job=replace(plan.job, name="second"))}
    out, written = console()
    show_chapter(out, dict(chapter_json(plans)), Path("chapter"), plans)
    text = written.getvalue()

    assert "chapter of 2 jobs" in text
    assert "second" in text
    assert f"All: {2 * len(plan.plates)} plates" in text
    assert max(map(len, text.splitlines())) <= 80

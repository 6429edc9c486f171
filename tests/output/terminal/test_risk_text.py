"""The detail of risk: the numbers of plan.json in 80 columns, with the reason of each failure ratio."""

from __future__ import annotations

import io
from datetime import date

from rich.console import Console

from planner.output.terminal.risk_text import show_risk
from planner.plan import make_plan, prepare
from tests.conftest import MakeJob
from tests.schedule.ways_out.test_ways_out import HEAD
from tests.shapes import cuboid


def test_the_curve_is_told_in_eighty_columns(make_job: MakeJob) -> None:
    """Every number of plates has its line with hours, grams and changes; one is the best; the ratio has its reason."""
    job = make_job(HEAD, block=cuboid(60, 60, 22), lid=cuboid(70, 60, 10), heel=cuboid(70, 60, 10))
    plan = make_plan(prepare(job, date(2026, 11, 26)))
    out = io.StringIO()
    show_risk(Console(file=out, width=80), plan)
    lines = out.getvalue().splitlines()

    assert max(map(len, lines)) <= 80
    for batch in plan.batches:
        assert batch.why.split(":")[0] in " ".join(lines)
        for point in batch.curve:
            row = [str(point.plates_n), str(point.most_n), f"{point.expected_s / 3600:.1f}", "h"]
            assert any(line.split()[:4] == row or line.split()[1:5] == row for line in lines)
    assert sum("* best" in line for line in lines) == len(plan.plates)

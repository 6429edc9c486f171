"""Where time and grams go: the rows add up to the plan."""

from __future__ import annotations

import pytest

from planner.output.page.line_kinds import kinds_of
from planner.plan import Plan


def test_rows_add_up_and_the_longest_comes_first(plan: Plan) -> None:
    """Seconds by kind add up to those of all plates, but for kinds under half a second; bars are shares of the longest."""
    rows = kinds_of(plan)
    seconds = [row[1] for row in rows]

    assert sum(seconds) == pytest.approx(sum(sum(p.kinds_s.values()) for p in plan.plates), abs=0.5 * 20)
    assert seconds == sorted(seconds, reverse=True)
    assert rows[0][2] == pytest.approx(100.0)
    assert all(0.0 <= row[2] <= 100.0 and 0.0 <= row[4] <= 100.0 for row in rows)

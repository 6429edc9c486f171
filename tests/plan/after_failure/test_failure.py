"""A failure as told: what the plan does not hold is refused in one sentence with the way on."""

from __future__ import annotations

from typing import Any

import pytest

from planner.errors import CommandError
from planner.plan import Failure, Plan
from planner.plan.after_failure.failure import failed_plate


def _told(**more: Any) -> Failure:
    """Return a failure of plate 2 after an hour."""
    return Failure(**{"plate": 2, "at_s": 3600.0, "cause": "shifted", "lost": {}, **more})


def test_a_failure_that_the_plan_holds_gives_its_plate(heron_plan: Plan) -> None:
    """All copies that lie there may be lost, and it may have failed at its very end."""
    longest = heron_plan.plates[1].duration_s.high

    assert failed_plate(heron_plan, _told(lost={"jaw": 2}, at_s=longest)) is heron_plan.plates[1]


@pytest.mark.parametrize(
    ("more", "where", "todo"),
    [
        ({"plate": 9}, "--failed", "the plan has 1 to 3"),
        ({"cause": "shiftd"}, "--cause", "shifted"),
        ({"lost": {"jaw": 3}}, "--lost", "plate 2 holds 2"),
        ({"lost": {"pad": 1}}, "--lost", "it lies on plate 1 (0.6 h): write --failed 1"),
        ({"lost": {"jaws": 1}}, "--lost", "jaw"),
        ({"at_s": 9 * 3600.0}, "--at", "plate 3 takes that long; correct --failed or --at"),
        ({"at_s": 1e6}, "--at", "no plate takes that long; correct --at"),
        ({"at_s": -1.0}, "--at", "plates 1, 2 and 3 take that long"),
    ],
)
def test_what_is_not_in_the_plan_is_refused_with_the_way_on(
    heron_plan: Plan, more: dict[str, Any], where: str, todo: str
) -> None:
    """No such plate, cause, copy or time: the option that is wrong, and what to write instead."""
    with pytest.raises(CommandError) as refused:
        failed_plate(heron_plan, _told(**more))

    assert refused.value.where == where
    assert todo in refused.value.todo

"""A pin in a printed slot, worked out by hand on both sides of every limit."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.finding import Verdict
from planner.rules.fit.bores.slot_pin import SlotPin
from planner.sourced import Sourced, stated

RULE = SlotPin(
    part="plate",
    feature="slot of pin",
    hardware="pin",
    width_mm=5.4,
    at_mm=(0.0, 0.0, 3.0),
    undersize_mm=stated(0.2),
    calibrated=False,
    need_mm=5.1,
    most_mm=5.4,
    file_mm=stated(0.5),
    source="here",
)


@pytest.mark.parametrize(
    ("s", "verdict"),
    [
        (0.88, Verdict.NO_GO),  # 4.552 mm, 0.548 less than the 5.1 mm that are needed
        (0.89, Verdict.GO_WITH_WORK),  # 4.606 mm
        (0.98, Verdict.GO_WITH_WORK),  # 5.092 mm
        (0.99, Verdict.GO),  # 5.146 mm
        (1.03, Verdict.GO),  # 5.362 mm
        (1.04, Verdict.HOLD),  # 5.416 mm: it rattles by more than 5.4 mm allow
    ],
)
def test_a_slot_grows_and_its_pin_does_not(s: float, verdict: Verdict) -> None:
    """It prints at 5.4 s - 0.2 mm: too narrow to file, to be filed, free to run, and so wide that the pin rattles."""
    found = RULE.at(s)

    assert found.verdict is verdict
    assert found.measured == pytest.approx(5.4 * s - 0.2)
    assert bool(found.remedy) == (verdict is not Verdict.GO)
    assert bool(found.question) == (verdict is Verdict.HOLD)


def test_its_turns_are_where_the_width_passes_its_limits() -> None:
    """(4.6 + 0.2) / 5.4, (5.1 + 0.2) / 5.4 and (5.4 + 0.2) / 5.4."""
    assert RULE.turns() == pytest.approx((4.8 / 5.4, 5.3 / 5.4, 5.6 / 5.4), abs=1e-4)


def test_an_undersize_that_decides_is_asked_for() -> None:
    """Between 0.0 and 0.4 mm undersize a slot of 5.4 mm is loose enough or too tight for a pin that needs 5.1 mm."""
    unsure = Sourced(value=0.2, low=0.0, high=0.4, kind="common-practice", source="here")
    found = replace(RULE, undersize_mm=unsure).at(1.0)

    assert found.verdict is Verdict.GO
    assert "How wide does a slot of 5.4 mm print" in found.question
    assert found.caution

"""How much oftener a plate fails by what lies on it: the mean of its pieces' ratios, by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Printer
from planner.schedule.risk.failure_ratio import family_ratio
from planner.sourced import Sourced


def _known(printer: Printer) -> Printer:
    """Return a printer whose log knows one part and one duty."""
    lever = Sourced(value=3.0, low=2.0, high=5.0, kind="measured", source="own log")
    pin = Sourced(value=0.5, low=0.2, high=1.0, kind="measured", source="own log")
    return replace(printer, fails_by=(("lever", lever), ("pin", pin)))


def test_pieces_count_by_their_number(printer: Printer) -> None:
    """One lever of ratio 3 and three unknown shells of ratio 1: (3 + 3) / 4 = 1.5; its interval in the same way."""
    found = family_ratio(_known(printer), {("lever", "load"): 1, ("cup", "shell"): 3})

    assert (found.ratio, found.low, found.high) == pytest.approx((1.5, 1.25, 2.0))
    assert "lever 3.00 (2.00 to 5.00; own log)" in found.why


def test_a_parts_own_name_comes_before_its_duty(printer: Printer) -> None:
    """A lever that is a pin counts as a lever, another pin as a pin."""
    assert family_ratio(_known(printer), {("lever", "pin"): 1}).ratio == 3.0
    assert family_ratio(_known(printer), {("axle", "pin"): 2}).ratio == 0.5


def test_what_the_log_does_not_know_has_the_common_rate(printer: Printer) -> None:
    """Nothing known: exactly 1, and it is said why."""
    found = family_ratio(_known(printer), {("cup", "shell"): 3})

    assert (found.ratio, found.low, found.high) == (1.0, 1.0, 1.0)
    assert "says nothing about the pieces" in found.why

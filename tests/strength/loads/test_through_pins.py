"""What a joint passes comes into a part over its own bores, by statics."""

from __future__ import annotations

import pytest

from planner.mechanism import PointLoad
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import Support
from planner.strength.loads.through_pins import all_pushes_of

LUG = Support(at_mm=(30.0, 0.0, 3.0), over="b2", axis=(0.0, 0.0, 1.0), turns=True)
FOOT = Support(at_mm=(0.0, 0.0, 3.0), over="b1", axis=(0.0, 0.0, 1.0), turns=True)
PASSED = PointLoad(copy="link", at_mm=(30.0, 0.0, 9.5), force_n=(0.0, 12.0, 0.0), over=("b2",))
"""A finger a level higher presses on a link's outer pin, 6.5 mm above the middle of the link's bore."""


def test_a_pins_force_beside_the_part_comes_in_over_its_bore_with_its_moment() -> None:
    """F in the middle of the bore, and the moment F times 6.5 mm about x (r cross F: textbook)."""
    (push,) = all_pushes_of([PASSED], [FOOT, LUG])

    assert (push.at_mm, push.over) == (LUG.at_mm, "b2")
    assert push.force_n == pytest.approx((0.0, 12.0, 0.0))
    assert push.couple_n_mm == pytest.approx((-78.0, 0.0, 0.0))


def test_the_bore_that_brings_a_load_in_does_not_hold_it() -> None:
    """The link's foot alone answers (the lug held what came in over it, and the link took nothing)."""
    case = known_case(all_pushes_of([PASSED], [FOOT, LUG]), [FOOT, LUG], "pushed")

    assert [one.over for one in case.answers] == ["b1"]
    assert case.answers[0].force_n == pytest.approx((0.0, -12.0, 0.0))


def test_two_lugs_share_a_pins_force_as_a_lever_has_it() -> None:
    """A force between two lugs at z = 0 and 9, at a third of the way, rests on them 2 : 1; bores come first."""
    lugs = [Support(at_mm=(0.0, 0.0, z), over=f"b{z:.0f}", axis=(0.0, 0.0, 1.0), turns=True) for z in (0.0, 9.0)]
    between = PointLoad(copy="fork", at_mm=(0.0, 0.0, 3.0), force_n=(9.0, 0.0, 0.0), over=("b0", "b9"))
    eye = PointLoad(copy="fork", at_mm=(20.0, 0.0, 3.0), force_n=(-9.0, 0.0, 0.0))
    pushes = all_pushes_of([eye, between], lugs)

    assert [round(one.force_n[0], 3) for one in pushes] == [6.0, 3.0, -9.0]

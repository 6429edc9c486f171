"""The beam pass's load case on a solid: in balance, on the walls that its forces press, and as the cuts carry it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.elements.case_forces import presses_of
from planner.strength.elements.nodal_forces import Press
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import Bore, Slot, Survey, survey
from tests.shapes import bored_plate

LEVER = survey(bored_plate(60.0, 12.0, 8.0, [(6.0, 6.0, 5.0, 48)]))
TIP = (56.0, 12.0, 4.0)


def _bore(of: Survey) -> Bore:
    """Return the one bore."""
    return next(one for one in of.bores if one.step_of is None)


def _left_over(presses: tuple[Press, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Return the sums of forces and of moments."""
    force = np.array([one.force_n for one in presses])
    at, couple = np.array([one.at_mm for one in presses]), np.array([one.couple_n_mm for one in presses])
    return force.sum(axis=0), (np.cross(at, force) + couple).sum(axis=0)


def test_a_lever_that_turns_is_clamped_at_its_joint_as_cuts_take_it() -> None:
    """10 N at 50 mm from a bore that passes no moment: 500 N mm at the bore, by hand; nothing is left over."""
    bore = _bore(LEVER)
    support = Support(at_mm=bore.centre_mm, over=bore.id, axis=bore.axis, turns=True)
    case = known_case([PartLoad(at_mm=TIP, force_n=(0.0, -10.0, 0.0))], [support], "pushed")
    held, tip = presses_of(case, LEVER)
    force, moment = _left_over((held, tip))

    assert held.axis == bore.axis
    assert held.radius_mm == pytest.approx(2.5)
    assert tip.axis is None
    assert abs(held.couple_n_mm[2]) == pytest.approx(500.0, rel=1e-3)
    assert force == pytest.approx([0.0, 0.0, 0.0], abs=1e-6)
    assert moment == pytest.approx([0.0, 0.0, 0.0], abs=1e-6)


def test_a_pin_through_two_lugs_presses_both() -> None:
    """A force on the axis between two bores belongs to both walls; one beyond every bore to the surface."""
    bore = replace(_bore(LEVER), centre_mm=(6.0, 6.0, 0.0), axis=(0.0, 0.0, 1.0), depth_mm=4.0)
    lugs = replace(LEVER, bores=(bore, replace(bore, id="b2", centre_mm=(6.0, 6.0, 20.0))))
    case = known_case([PartLoad(at_mm=(6.0, 6.0, 8.0), force_n=(5.0, 0.0, 0.0))], [Support(at_mm=TIP)], "pulled")
    beyond = known_case([PartLoad(at_mm=(6.0, 6.0, 40.0), force_n=(5.0, 0.0, 0.0))], [Support(at_mm=TIP)], "pulled")

    assert presses_of(case, lugs)[1].deep_mm == pytest.approx(2.0 * (12.0 + 2.0))
    assert presses_of(beyond, lugs)[1].axis is None


def test_webbing_presses_the_long_wall_of_its_slot() -> None:
    """A slot of 26 by 4: 11 mm each way from its middle, as far out as half its section's diagonal."""
    slot = Slot(
        width_mm=4.0,
        length_mm=26.0,
        at_mm=(30.0, 6.0, 4.0),
        length_axis=(1.0, 0.0, 0.0),
        deep_axis=(0.0, 0.0, 1.0),
        depth_mm=3.0,
    )
    load = PartLoad(at_mm=slot.at_mm, force_n=(0.0, 20.0, 0.0), over="slot")
    case = known_case([load], [Support(at_mm=TIP)], "webbing")
    webbing = presses_of(case, replace(LEVER, slots=(slot,)))[1]

    assert webbing.halves_mm == ((11.0, 0.0, 0.0),)
    assert webbing.patch_mm == pytest.approx(2.5)


def test_a_face_that_parts_meet_on_is_pressed_over_its_size() -> None:
    """A bar held by all of its end of 12 by 8, pushed at its tip: no force acts off that face, as far as it is known."""
    face = ((0.0, 12.0, 0.0), (0.0, 0.0, 8.0))
    push = PartLoad(at_mm=TIP, force_n=(0.0, 0.0, -5.0), spread_mm=())
    case = known_case([push], [Support(at_mm=(0.0, 6.0, 4.0), spread_mm=face)], "pushed")
    held, pushed_there = presses_of(case, LEVER)

    assert held.halves_mm == ((0.0, 6.0, 0.0), (0.0, 0.0, 4.0))
    assert (held.face_mm, pushed_there.face_mm, pushed_there.halves_mm) == (0.5, 0.0, ())

"""How wide loads enter: at a point, over a bore with its head, over a slot."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.strength.loads.entering import entering, over_bore, over_slot
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import Slot, survey
from tests.shapes import bored_plate

PLATE = survey(bored_plate(60.0, 20.0, 8.0, [(10.0, 10.0, 5.0, 64)]))
BORE = PLATE.bores[0]


def _entering(at_mm: tuple[float, float, float]) -> PartLoad:
    """Return a push at a place as it enters the plate."""
    push = PartLoad(at_mm=at_mm, force_n=(0.0, 0.0, -1.0))
    return entering(known_case([push], [Support(at_mm=(50.0, 10.0, 4.0))], "pushed"), PLATE).pushes[0]


def test_a_load_on_no_bore_enters_at_a_point_and_one_on_a_bore_over_its_wall_and_head() -> None:
    """Along the axis the wall's 8 mm; across it twice a head of two diameters of 5 mm, whichever way is asked."""
    at_tip, on_bore = _entering((60.0, 10.0, 8.0)), _entering((10.0, 10.0, 4.0))

    assert at_tip.spread_mm == ()
    assert at_tip.width_mm(np.array([0.0, 1.0, 0.0])) == 0.0
    assert on_bore.width_mm(np.array([0.0, 0.0, 1.0])) == pytest.approx(8.0, rel=0.01)
    for turn in (0.0, 0.5, 1.2):
        assert on_bore.width_mm(np.array([np.cos(turn), np.sin(turn), 0.0])) == pytest.approx(20.0, rel=0.01)


def test_bores_on_one_axis_carry_together_from_end_to_end() -> None:
    """Two lugs of 8 mm with 12 mm between them: 28 mm along the pin."""
    x, y, z = BORE.centre_mm
    other = replace(BORE, centre_mm=(x, y, z + 20.0))

    assert np.linalg.norm(over_bore(BORE, other)[0]) == pytest.approx(28.0, rel=0.01)


def test_webbing_enters_over_the_length_of_its_slot() -> None:
    """A slot of 20 by 3 through 4 mm."""
    slot = Slot(
        width_mm=3.0,
        length_mm=20.0,
        at_mm=(0.0, 0.0, 0.0),
        length_axis=(1.0, 0.0, 0.0),
        deep_axis=(0.0, 0.0, 1.0),
        depth_mm=4.0,
    )
    load = PartLoad(at_mm=slot.at_mm, force_n=(0.0, 1.0, 0.0), spread_mm=over_slot(slot))

    assert [load.width_mm(way) for way in np.eye(3)] == pytest.approx([20.0, 3.0, 4.0])


def test_what_holds_a_part_without_telling_how_wide_is_left_so() -> None:
    """Its answer counts as over the whole section."""
    push = PartLoad(at_mm=(60.0, 10.0, 8.0), force_n=(0.0, 0.0, -1.0))
    case = entering(known_case([push], [Support(at_mm=(50.0, 10.0, 4.0))], "pushed"), PLATE)

    assert case.answers[0].spread_mm is None

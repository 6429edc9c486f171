"""A lug in tension: what its bore may take beside the pin, against Frocht and Hill's curve."""

from __future__ import annotations

import pytest

from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.beam.ways.pressed_notch import blunted, pin_ratio
from planner.strength.loads.entering import entering
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import survey
from tests.shapes import bored_plate
from tests.strength.beam.test_beam_pass import SOLID
from tests.strength.places.twelve_parts import PARTS, STUFF


@pytest.mark.parametrize(("bore_mm", "published"), [(4.0, 5.5), (6.0, 3.75), (10.0, 2.5)])
def test_a_lug_may_take_what_was_measured_beside_its_pin(bore_mm: float, published: float) -> None:
    """600 N in a strip of 20 by 5: K times the net section's stress (Frocht and Hill 1940, curve from memory), 5 %.

    Kirsch's 3, for a bore that nothing presses, was told for all: half of it beside a thin pin. Pushed into the lug, as
    a strut, the pin pulls nothing apart beside it.
    """
    lug = bored_plate(80, 20, 5, [(20, 10, bore_mm, 96)])
    bore, low = survey(lug).bores[0], lug.bounds_mm[0]
    held = Support(at_mm=(float(low[0] + 78), float(low[1] + 10), float(low[2] + 2.5)))
    pulled, pushed = (
        weakest(
            lug,
            (known_case([PartLoad(at_mm=bore.centre_mm, force_n=(x, 0.0, 0.0), over=bore.id)], [held], "pin"),),
            SOLID,
        )
        for x in (-600.0, 600.0)
    )
    assert pulled is not None
    assert pushed is not None
    net_percent = 100.0 * 600.0 / (20.0 - bore_mm) / 5.0 / 50.0

    assert pulled.share_percent[KNOTS.index(1.0)] == pytest.approx(net_percent, rel=0.02)
    most = max(blunted(published, bore_mm / 2.0), pushed.notch_ratio)
    assert pulled.notch_ratio == pytest.approx(most, rel=0.05)
    assert pushed.notch_ratio < 3.0


def test_beside_a_thin_pin_stress_goes_by_the_pins_own_section() -> None:
    """1.2 times P / (d t) at the least width that was measured, and at half of it."""
    on_pin = [pin_ratio(share) * share / (1.0 - share) for share in (0.15, 0.075)]

    assert on_pin == pytest.approx([1.2, 1.2], rel=0.01)


def test_a_lug_with_a_round_end_takes_more_than_a_strip() -> None:
    """150 N in an eye of 16 by 6, bore 6: 24.8 % of 40 MPa on a fine mesh in plane stress, where a strip takes 19.5 %."""
    part = PARTS["lug"]
    solid = part.solid("lug")
    found = weakest(solid, (entering(part.case(), survey(solid)),), STUFF)
    assert found is not None

    assert found.share_percent[KNOTS.index(1.0)] * found.notch_ratio == pytest.approx(24.8, rel=0.15)

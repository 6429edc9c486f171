"""The thread in plastic: how far a bought screw reaches in, and at which scales it holds just enough."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.rules.fit.strength.thread_hold import ThreadHold

M4 = ThreadHold(
    outside_mm=4.0,
    root_mm=3.141,
    pitch_mm=0.7,
    bore_mm=3.3,
    depth_mm=10.0,
    lengths_mm=(8.0, 10.0, 12.0, 16.0, 20.0),
    stack_mm=15.0,
    beside_mm=0.8,
    point_mm=1.4,
)
INSERT = replace(M4, root_mm=4.0, pitch_mm=None, lengths_mm=(), insert_mm=6.0)


def test_a_screw_reaches_in_by_what_is_bought_less_what_it_passes() -> None:
    """15.8 mm to go through, so 12 mm is bought: 0.8 of washer, 5 of the lid and 1.4 of point leave 4.8 mm."""
    assert M4.engaged_mm(1.0) == pytest.approx(4.8)
    assert M4.engaged_mm(0.3) == 0.0


def test_a_short_screw_in_a_deep_pilot_holds_by_its_own_length() -> None:
    """A stack of 8 mm ends in the pilot of 10: 8 mm is bought, and 1.4 of it is point."""
    assert replace(M4, stack_mm=8.0, beside_mm=0.0).engaged_mm(1.0) == pytest.approx(6.6)


def test_an_insert_holds_by_no_more_than_its_length() -> None:
    """It is 6 mm long; a bore of 4 mm takes 4 of it."""
    assert INSERT.engaged_mm(1.0) == pytest.approx(6.0)
    assert INSERT.engaged_mm(0.4) == pytest.approx(4.0)


@pytest.mark.parametrize("hold", [M4, INSERT])
def test_between_its_turns_a_hold_does_not_change(hold: ThreadHold) -> None:
    """Compared with 2,000 scales, one by one."""
    least_mm2 = 0.7 * hold.area_mm2(1.0)
    turns = np.array(hold.turns(least_mm2))
    scales = np.linspace(0.2, 1.6, 2000)
    enough = np.array([hold.area_mm2(float(s)) >= least_mm2 for s in scales])
    for k in np.flatnonzero(enough[1:] != enough[:-1]):
        assert np.any((turns >= scales[k] - 1e-9) & (turns <= scales[k + 1] + 1e-9))


def test_a_bore_as_wide_as_the_thread_holds_nothing() -> None:
    """3.3 mm grows to 4 mm at 121.3 %."""
    assert M4.area_mm2(1.21) > 0.0
    assert M4.area_mm2(1.22) == 0.0

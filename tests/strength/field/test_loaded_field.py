"""One loaded part all over: by what is kept, at size, and never solved for a picture."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from planner.job import Material
from planner.strength import ByElements, Screened, loaded_field
from planner.strength.beam.beam_pass import weakest
from planner.strength.elements.refined_elements import Solved
from planner.survey import survey
from tests.strength.field.test_beam_field import BAR, PUSHED, SOLID

PLACES = np.array([[20.0, 10.0, 4.0], [70.0, 10.0, 4.0]])


@pytest.fixture(name="bar")
def _bar(petg: Material) -> Screened:
    """Return a bar that is screened by beam formulas."""
    found = weakest(BAR, (PUSHED,), SOLID)
    return Screened(
        part="bar", known=True, stuff=SOLID, material=petg, cases=(PUSHED,), case=PUSHED, weakest=found, line_mm=0.45
    )


def test_without_elements_the_cuts_tell_at_size(bar: Screened) -> None:
    """A solid bar: a quarter of the share at twice the size, and the bend is not known."""
    drawn, twice = (loaded_field(bar, BAR, survey(BAR), factor) for factor in (1.0, 2.0))
    assert drawn is not None
    assert twice is not None

    assert twice.shares_percent(PLACES) == pytest.approx(drawn.shares_percent(PLACES) / 4.0)
    assert (drawn.method, drawn.bend) == ("beam", None)


def test_kept_elements_tell_at_size(bar: Screened, monkeypatch: pytest.MonkeyPatch) -> None:
    """A quarter of the kept share and half of the kept bend at twice the size; the range is that of the stiffness."""
    asked = replace(bar, elements=ByElements(factor=2.0, beam_percent=10.0, share_percent=20.0, stands=True))
    answer = Solved(
        weakest_mm=(20.0, 10.0, 4.0),
        stress_mpa=np.diag([40.0, 0.0, 0.0]),
        share_percent=80.0,
        converged_percent=1.0,
        unknowns_n=3000,
        seconds=2.0,
        skin_mm=np.vstack([PLACES, [[10.0, y, z] for y in (0.0, 10.0) for z in np.linspace(3.0, 5.0, 6)]]),
        skin_share_percent=np.array([80.0, np.nan, *[0.0] * 12]),
        skin_shift_mm=np.vstack([[[0.0, 0.0, 0.0], [0.0, 1.0, 0.0]], np.zeros((12, 3))]),
    )
    held: Any = {"solved": lambda *_: answer, "solved_before": lambda *_: True}
    for name, made in held.items():
        monkeypatch.setattr(f"planner.strength.by_elements.{name}", made)
    field = loaded_field(asked, BAR, survey(BAR), 2.0)
    assert field is not None
    assert field.bend is not None
    assert asked.material is not None
    stiff = asked.material.modulus_along_mpa

    assert field.shares_percent(PLACES)[0] == pytest.approx(20.0)
    assert np.isnan(field.shares_percent(PLACES)[1])
    assert field.bend.most_mm == pytest.approx(0.5, abs=0.02)
    assert (field.bend.low_share, field.bend.high_share) == (stiff.value / stiff.high, stiff.value / stiff.low)


def test_a_part_without_a_load_has_no_field(bar: Screened) -> None:
    """Where nothing tells the load there is nothing to show."""
    assert loaded_field(replace(bar, case=None), BAR, survey(BAR), 1.0) is None

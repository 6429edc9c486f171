"""The proof of printing one after another: both faults are told, at their limits by hand, and no other."""

from __future__ import annotations

import pytest

from planner.packing.layout.one_by_one import InTurn
from planner.packing.layout.plate import Placement
from planner.packing.proof.verify_one_by_one import turn_faults

RINGS = dict.fromkeys(("low", "tall"), (((0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)),))
HEIGHTS = {"low": 10.0, "tall": 50.0}
TURNS = InTurn(clear_mm=25.0, under_mm=30.0)


def _at(part: str, x_mm: float) -> Placement:
    """Return a square of 20 mm at a place."""
    return Placement(part=part, copy=1, x_mm=x_mm, y_mm=50.0, turn_deg=0.0)


@pytest.mark.parametrize(("apart_mm", "brim_mm", "hit"), [(25.0, 0.0, False), (24.9, 0.0, True), (25.0, 4.0, True)])
def test_the_head_must_pass_what_is_finished(apart_mm: float, brim_mm: float, hit: bool) -> None:
    """The head reaches 25 mm: squares as far apart pass, nearer ones do not; a brim brings the nozzle nearer."""
    told = turn_faults([_at("low", 50.0), _at("low", 70.0 + apart_mm)], RINGS, HEIGHTS, TURNS, brim_mm)

    assert bool(told) is hit
    assert all("the head hits low 1" in line for line in told)


def test_only_the_last_piece_may_be_tall() -> None:
    """50 mm stand under what crosses the bed at 30 mm: told where the tall piece comes first, fine where it is last."""
    apart = 70.0 + 30.0

    assert turn_faults([_at("low", 50.0), _at("tall", apart)], RINGS, HEIGHTS, TURNS, 0.0) == []
    (told,) = turn_faults([_at("tall", 50.0), _at("low", apart)], RINGS, HEIGHTS, TURNS, 0.0)
    assert told.startswith("tall 1 is 50.00 mm high and stands before low 1")

"""Random problems of every kind: a judge written apart, on another library, finds nothing wrong."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.packing import Packing, pack, verify
from tests.packing.judge import faults
from tests.packing.problems import Problem, problem


def packed(asked: Problem, budget_s: float) -> Packing:
    """Pack a problem."""
    return pack(asked.items, bed=asked.bed, spacing_mm=asked.spacing_mm, seed=1, budget_s=budget_s, rules=asked.rules)


def wrong(asked: Problem, packing: Packing) -> list[str]:
    """Return what judge and proof find; copies that are reported as unplaced count as missing only if they are laid."""
    lost = {part for part, _, _ in packing.unplaced}
    items = [item for item in asked.items if item.part not in lost]
    proof = verify(packing.plates, items, bed=asked.bed, spacing_mm=asked.spacing_mm, rules=asked.rules)
    return [*faults(packing.plates, items, asked.bed, asked.spacing_mm), *proof]


@pytest.mark.parametrize("seed", range(60))
def test_random_problems_hold_before_a_judge_written_apart(seed: int) -> None:
    """No overlap, no margin or zone broken, no copy lost or doubled; every twelfth searched on."""
    asked = problem(seed)

    assert wrong(asked, packed(asked, 1.2 if seed % 12 == 0 else 0.0)) == []


def test_the_judge_finds_what_is_planted() -> None:
    """A copy moved by the spacing and a hair more, or left out, is found by the judge and by the proof."""
    asked = problem(4)
    packing = packed(asked, 0.0)
    plate = max(packing.plates, key=lambda each: len(each.placements))
    first = plate.placements[0]
    for changed in (
        (replace(first, x_mm=first.x_mm - 400.0), *plate.placements[1:]),
        (replace(first, x_mm=plate.placements[1].x_mm, y_mm=plate.placements[1].y_mm), *plate.placements[1:]),
        plate.placements[1:],
    ):
        plates = tuple(replace(p, placements=changed) if p is plate else p for p in packing.plates)

        assert faults(plates, asked.items, asked.bed, asked.spacing_mm)
        assert verify(plates, asked.items, bed=asked.bed, spacing_mm=asked.spacing_mm)

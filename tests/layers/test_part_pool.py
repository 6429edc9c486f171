"""The pool over parts: all cores where that pays, and the same answers."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

import numpy as np
import pytest

from planner.job import Settings, read_material, read_printer
from planner.layers import PosedPart, estimate_parts
from planner.mesh import posed
from tests.shapes import ball, bored_plate

DOWN = (0.0, 0.0, -1.0)
HERE = Path(__file__).parent


@pytest.fixture(name="parts")
def _parts(standard: Settings) -> list[PosedPart]:
    printer, material = read_printer("bench-220", HERE), read_material("petg", HERE)
    solids = [ball(8.0, 24), bored_plate(20, 10, 4, [(5, 5, 3, 24)]), ball(5.0, 24)]
    return [
        PosedPart(solid=posed(solid, DOWN), settings=standard, printer=printer, material=material) for solid in solids
    ]


def test_two_cores_give_the_answers_of_one(parts: list[PosedPart], monkeypatch: pytest.MonkeyPatch) -> None:
    """Every number of every part, to the last digit, in the order asked, and each part is told."""
    monkeypatch.setenv("FITWRIGHT_CACHE", "off")
    alone = estimate_parts(parts, cores_n=1)
    monkeypatch.setattr("planner.layers.part_pool.CORNERS_LEAST", 0)
    told: list[int] = []
    shared = estimate_parts(parts, told.append, cores_n=2)

    assert told == [0, 1, 2]
    for one, other in zip(alone, shared, strict=True):
        for field in fields(one):
            assert np.array_equal(getattr(one, field.name), getattr(other, field.name)), field.name


def test_what_is_kept_starts_no_pool(parts: list[PosedPart], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Estimates in the cache are read here, however many corners the parts have."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    first = estimate_parts(parts, cores_n=1)
    monkeypatch.setattr("planner.layers.part_pool.CORNERS_LEAST", 0)
    monkeypatch.setattr("planner.layers.part_pool.joblib.Parallel", None)

    assert all(part.kept for part in parts)
    assert [each.duration_s for each in estimate_parts(parts, cores_n=2)] == [each.duration_s for each in first]


def test_a_balls_corners_are_those_of_its_layers(parts: list[PosedPart]) -> None:
    """About as many as its sections have: every triangle once for each layer that it crosses."""
    sections = parts[0].solid.manifold
    assert sections is not None
    corners_n = sum(sections.slice(z).num_vert() for z in np.arange(0.12, 16.0, 0.2))

    assert parts[0].corners_n == pytest.approx(corners_n, rel=0.1)

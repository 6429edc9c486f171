"""Many bores at random places in plates of any size: all are found, and no others."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import facets_of
from tests.shapes import bored_plate
from tests.survey.drawn.plates_of_bores import placed, plate_read_back, wrong_in


@pytest.mark.parametrize("seed", range(16))
def test_every_bore_of_a_plate_is_found_and_no_other(seed: int, tmp_path: Path) -> None:
    """Plates of 50 to 400 mm, 0.8 to 20 mm thick, turned or not, give their 1 to 60 bores within 0.5 % (geometry)."""
    rng = np.random.default_rng([3, seed])
    long, wide = (float(side) for side in rng.uniform(50.0, 400.0, 2))
    thick = 0.8 if seed % 4 == 0 else float(rng.uniform(0.8, 20.0))
    tilt, roll, spin = (float(angle) for angle in rng.uniform(-180.0, 180.0, 3) * (seed % 2))
    places = placed(rng, (long, wide), int(rng.integers(1, 61)), (2.0, 12.0))

    assert not wrong_in(plate_read_back(places, (long, wide, thick), (tilt, roll, spin), tmp_path / "plate.stl"))


def test_two_hundred_small_bores_are_found(tmp_path: Path) -> None:
    """A turned plate of 300 mm and 0.8 mm gives all its 200 bores of 1 to 3 mm within 0.5 % (geometry)."""
    places = placed(np.random.default_rng(9), (300.0, 200.0), 200, (1.0, 3.0))
    assert len(places) == 200

    assert not wrong_in(plate_read_back(places, (300.0, 200.0, 0.8), (31.0, -57.0, 118.0), tmp_path / "plate.stl"))


def test_a_needle_of_a_face_does_not_join_a_bore_to_it() -> None:
    """Where the triangle at a bore's mouth is too thin to have a direction, the bore is found as the others are."""
    plate = bored_plate(200.0, 200.0, 5.0, [(5.0, 49.64128649, 3.4, 48), (20.54776732, 5.0, 3.4, 48)])
    facets = facets_of(plate)
    beside = facets.thin[facets.pairs].any(axis=1)
    assert beside.any()

    bores, possible = bores_of(plate, facets)

    assert [round(bore.drawn_diameter_mm, 3) for bore in bores] == [3.4, 3.4]
    assert not possible
    # A plate has only square edges, apart from the bores' own facets of 7.5 degrees: a needle is on one side or other.
    assert set(np.round(np.degrees(facets.angle_rad[beside]))) <= {0.0, 90.0}

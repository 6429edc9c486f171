"""Bores: all found, none invented, on random parts of ours and on real parts of others."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.mesh import Solid, read_solid
from planner.survey import Bore
from planner.survey.bores.bores import bores_of
from tests.shapes import DATA, Manifold, ball, bored_plate, cylinder, solid_of, tube

TRUTH: list[dict[str, Any]] = json.loads((DATA / "bores" / "truth.json").read_text(encoding="utf-8"))


@settings(max_examples=40, deadline=None)
@given(
    diameter=st.floats(1.0, 16.0),
    n=st.integers(12, 128),
    deep=st.floats(2.0, 20.0),
    blind=st.booleans(),
    turn=st.tuples(*(st.floats(-180, 180) for _ in range(3))),
)
def test_a_bore_at_any_angle_is_measured(
    diameter: float, n: int, deep: float, blind: bool, turn: tuple[float, float, float]
) -> None:
    """Inscribed diameter is d cos(pi/n) (geometry), drawn diameter d, depth and kind as drawn, axis as turned."""
    body = Manifold.cube((30, 30, 24), True) - cylinder(diameter, deep, n).translate(
        (0, 0, 12 - deep if blind else -99)
    )
    if not blind:
        body -= cylinder(diameter, 40, n).translate((0, 0, -20))
    bores, possible = bores_of(solid_of(body.rotate(turn)))
    up = solid_of(Manifold.cube((1, 1, 9)).rotate(turn))
    axis = up.vertices_mm[np.argmax(np.linalg.norm(up.vertices_mm, axis=1))]

    assert len(bores) == 1
    assert not possible
    bore = bores[0]
    assert bore.drawn_diameter_mm == pytest.approx(diameter, rel=1e-3)
    assert bore.diameter_mm == pytest.approx(diameter * math.cos(math.pi / n), rel=1e-3)
    assert bore.depth_mm == pytest.approx(deep if blind else 24.0, abs=1e-3)
    assert (bore.through, bore.facets_n) == (not blind, n)
    assert abs(np.dot(bore.axis, axis / np.linalg.norm(axis))) > 0.98


def test_a_stepped_bore_is_two_that_name_their_first() -> None:
    """A counterbored hole is two cylinders of one stack, both through."""
    body = Manifold.cube((30, 30, 10), True) - cylinder(4, 20, 48).translate((0, 0, -10)) - cylinder(8, 9, 48)
    bores, _ = bores_of(solid_of(body))

    assert [round(bore.drawn_diameter_mm, 3) for bore in bores] == [4.0, 8.0]
    assert [bore.step_of for bore in bores] == [None, bores[0].id]
    assert all(bore.through for bore in bores)


@pytest.mark.parametrize(
    "solid",
    [
        ball(20.0),
        solid_of(cylinder(10, 30, 64)),
        solid_of(Manifold.cube((30, 30, 30)) - Manifold.sphere(8, 96).translate((15, 15, 15))),
        solid_of(Manifold.cube((30, 30, 30)) - cylinder(12, 40, 64).translate((0, 0, -1))),
    ],
    ids=["ball", "peg", "ball-shaped cavity", "quarter round"],
)
def test_what_is_no_bore_is_not_reported(solid: Solid) -> None:
    """Outer cylinders, balls, hollows and fillets give no bore and no possible bore."""
    assert bores_of(solid) == ((), ())


def test_a_curved_channel_is_no_bore() -> None:
    """The segments of a bent tube are not reported as bores."""
    from sample_parts.solids import bent_tube

    bend = bent_tube(1.5, 12.0, 90.0, 32, 18)
    body = Manifold.cube((40, 10, 40), True).translate((5, 0, 5)) - bend
    bores, _ = bores_of(solid_of(body))

    assert not bores


def test_a_coarse_round_is_only_possible() -> None:
    """Eight facets all round are too few to be sure."""
    bores, possible = bores_of(bored_plate(30, 30, 5, [(15, 15, 8, 8)]))

    assert not bores
    assert [bore.facets_n for bore in possible] == [8]


def test_the_matter_beside_a_bore_is_what_was_drawn() -> None:
    """Edge wall is the distance to the edge less the radius; between two bores it is the web between them."""
    bores, _ = bores_of(bored_plate(40, 30, 6, [(5, 15, 6, 64), (20, 15, 6, 64), (28, 15, 6, 64)]))
    walls = [bore.edge_wall_mm for bore in sorted(bores, key=lambda bore: bore.centre_mm[0])]

    assert walls == pytest.approx([2.0, 2.0, 2.0], abs=0.02)


def test_the_same_mesh_gives_the_same_names() -> None:
    """Ids are in a fixed order of place."""
    plate = bored_plate(40, 30, 6, [(30, 15, 6, 48), (10, 15, 4, 48)])
    first = [bore.id for bore in bores_of(plate)[0]]

    assert first == ["b1", "b2"]
    assert [round(bore.centre_mm[0]) for bore in bores_of(plate)[0]] == [10, 30]


@pytest.mark.parametrize("record", TRUTH, ids=lambda record: record["name"])
def test_real_parts_give_their_measured_bores(record: dict[str, Any]) -> None:
    """On parts made by others every measured bore is found and nothing is invented (truth measured on their STEP files)."""
    solid = read_solid(DATA / "bores" / record["file"], unit="inch" if record["scale_to_mm"] == 25.4 else "mm")
    bores, _ = bores_of(solid)
    left = list(bores)
    for meant in record["must_detect"]:
        for diameter, length in zip(meant["diameters"], meant["lengths"], strict=True):
            found = [bore for bore in left if _is(bore, diameter, length, meant)]
            assert found, (diameter, meant)
            left.remove(found[0])

    assert not left
    assert solid.volume_mm3 == pytest.approx(record["volume_mm3"], rel=1e-3)


def _is(bore: Bore, diameter: float, length: float, meant: dict[str, Any]) -> bool:
    """Return whether a bore is the one that was measured."""
    axis, away = np.array(meant["axis"]), np.subtract(bore.centre_mm, meant["mid"])
    beside = np.linalg.norm(away - (away @ axis) * axis)
    return bool(
        abs(bore.drawn_diameter_mm - diameter) < max(0.02, 0.01 * diameter)
        and abs(np.dot(bore.axis, axis)) > math.cos(math.radians(0.2))
        and abs(bore.depth_mm - length) < 0.1
        and beside < 0.1
        and bore.through == (meant["type"] == "through")
    )


def test_a_tube_is_one_bore() -> None:
    """A tube's inside is a bore with its wall beside it."""
    bores, _ = bores_of(tube(20, 16, 30))

    assert len(bores) == 1
    assert bores[0].edge_wall_mm == pytest.approx(2.0, abs=0.02)


@pytest.mark.parametrize("seed", range(6))
def test_noisy_vertices_hide_no_bore(seed: int) -> None:
    """With every vertex off by up to 0.01 mm, four bores at any angle come back within 0.02 mm or 0.5 %."""
    rng = np.random.default_rng(seed)
    meant = [(float(rng.uniform(1, 11)), int(rng.integers(12, 129)), k % 2 == 0) for k in range(4)]
    body = Manifold.cube((70, 30, 8), True)
    for k, (diameter, n, through) in enumerate(meant):
        body -= cylinder(diameter, 20, n).translate((17.5 * k - 26, 0, -9 if through else -1))
    clean = solid_of(body.rotate(tuple(rng.uniform(-180, 180, 3))))
    shaken = clean.vertices_mm + rng.uniform(-0.01, 0.01, clean.vertices_mm.shape)
    bores, possible = bores_of(replace(clean, vertices_mm=shaken))

    assert len(bores) == 4
    assert not possible
    for diameter, n, through in meant:
        bore = min(bores, key=lambda b: abs(b.drawn_diameter_mm - diameter))
        assert bore.drawn_diameter_mm == pytest.approx(diameter, rel=0.005, abs=0.02)
        assert bore.diameter_mm == pytest.approx(diameter * math.cos(math.pi / n), rel=0.005, abs=0.02)
        assert bore.depth_mm == pytest.approx(8.0 if through else 5.0, abs=0.1)
        assert bore.through == through


def test_a_clean_mesh_has_no_noise() -> None:
    """Flats, bores and a ball as drawn give zero; shaken by a known standard deviation, that one within 20 %."""
    from planner.survey.bores.facets import facets_of
    from planner.survey.bores.patches import noise_mm

    plate = bored_plate(40, 30, 6, [(10, 15, 6, 64), (28, 15, 6, 24)])
    shaken = plate.vertices_mm + np.random.default_rng(3).normal(0, 0.006, plate.vertices_mm.shape)

    assert [noise_mm(solid, facets_of(solid)) for solid in (plate, ball(20.0), tube(20, 16, 30))] == [0.0] * 3
    noisy = replace(plate, vertices_mm=shaken)
    assert noise_mm(noisy, facets_of(noisy)) == pytest.approx(0.006, rel=0.2)


@pytest.mark.parametrize("turn", [(0.0, 0.0, 0.0), (20.0, 30.0, 40.0)])
def test_a_countersink_is_told_from_a_step_and_a_drill_tip(turn: tuple[float, float, float]) -> None:
    """A cone of 4 to 8 mm at the mouth is one; a counterbore, a plain bore and a blind 118 degree tip are not."""
    block = Manifold.cube((60, 20, 10), True)
    block -= cylinder(4, 20, 48).translate((-22, 0, -10)) + Manifold.cylinder(2.01, 2, 4, 48).translate((-22, 0, 3))
    block -= cylinder(4, 20, 48).translate((-8, 0, -10)) + cylinder(8, 9, 48).translate((-8, 0, 2))
    block -= cylinder(4, 20, 48).translate((8, 0, -10))
    block -= cylinder(4, 9, 48).translate((22, 0, 0)) + Manifold.cylinder(1.2, 0.01, 2, 48).translate((22, 0, -1.2))
    bores, _ = bores_of(solid_of(block.rotate(turn)))

    assert sorted(bore.countersink_mm or 0.0 for bore in bores) == pytest.approx([0, 0, 0, 0, 8.0], abs=0.05)


def test_real_countersinks_are_seen() -> None:
    """The machined plate by others has none on its plain bores, and what is sunk is wider than its bore."""
    solid = read_solid(DATA / "bores" / "stepped_plate.stl")
    assert all(b.countersink_mm is None or b.countersink_mm > b.drawn_diameter_mm for b in bores_of(solid)[0])

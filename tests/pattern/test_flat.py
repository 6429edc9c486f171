"""Padding is laid flat at half its thickness, with its openings, or refused with the reason."""

from __future__ import annotations

import math

import pytest

from planner.finding import Vec3
from planner.mesh import Solid
from planner.pattern.flat import Flat, laid_flat
from planner.pattern.skin_patch import skin_patch
from tests.pattern.shells import bowl, half_shell, plate


def flat_of(solid: Solid, thick_mm: float, toward: Vec3 | None = None) -> Flat | str:
    skin = skin_patch(solid, toward)
    assert skin is not None
    return laid_flat(skin, thick_mm)


@pytest.mark.parametrize("n", [12, 36, 60])
def test_half_a_pipe_is_a_rectangle_however_coarse_its_mesh(n: int) -> None:
    """π (R - t/2) by L within 0.1 mm (circumference), from a mesh with lips or a few facets."""
    flat = flat_of(half_shell(31, 3.2, 100, n), 3.0)

    assert isinstance(flat, Flat)
    assert flat.method == "cylinder"
    assert sorted(flat.size_mm) == pytest.approx([math.pi * 29.5, 100.0], abs=0.1)
    assert flat.area_mm2 == pytest.approx(math.pi * 29.5 * 100, rel=2e-3)
    assert flat.stretch_percent == 0.0


def test_long_openings_are_cut_out_and_short_ones_marked() -> None:
    """A strap's slot of 26 mm is cut, a screw's bore of 4 mm is marked at its middle (as drawn)."""
    flat = flat_of(plate(80, 40, 4), 5.0, (0.0, 0.0, -1.0))

    assert isinstance(flat, Flat)
    assert flat.method == "plane"
    assert len(flat.rings) == 2
    assert flat.area_mm2 == pytest.approx(80 * 40 - 26 * 5)
    (mark,) = flat.marks
    assert min(mark[0], 80 - mark[0]) == pytest.approx(15, abs=0.01)
    assert mark[1] == pytest.approx(20, abs=0.01)


def test_a_bowl_says_how_much_it_stretches() -> None:
    """About that of the known least map: α / sin α for a cap of 40° (Milnor 1969), at most 1.2 times as logarithm."""
    flat = flat_of(bowl(40, 3, 40, 48), 3.0)
    least = math.log(math.radians(40) / math.sin(math.radians(40)))

    assert isinstance(flat, Flat)
    assert flat.method == "least stretch"
    assert 0.4 * least < flat.stretch_percent / 100 < 1.2 * least
    assert flat.area_mm2 == pytest.approx(flat.layer_mm2, rel=0.03)


def test_padding_thicker_than_the_shell_is_round_is_refused() -> None:
    """There is no room for 35 mm inside a radius of 31."""
    told = flat_of(half_shell(31, 3.2, 100), 35.0)

    assert isinstance(told, str)
    assert "bent too tightly" in told


def test_a_bowl_gets_as_few_darts_as_let_it_lie() -> None:
    """8 % without darts, 3 % at most with them, and both are told; area stays that of the layer."""
    skin = skin_patch(bowl(40, 3, 40, 48), None)
    assert skin is not None
    bare, flat = laid_flat(skin, 3.0), laid_flat(skin, 3.0, 3.0)

    assert isinstance(bare, Flat)
    assert isinstance(flat, Flat)
    assert not bare.darts
    assert flat.stretch_percent <= 3.0 < bare.stretch_percent == flat.bare_percent
    assert flat.area_mm2 == pytest.approx(flat.layer_mm2, rel=0.03)
    for dart in flat.darts:
        assert dart.left[-1] == dart.right[-1]
        assert any(math.dist(dart.left[0], point) < 0.01 for point in flat.rings[0])


def test_what_lies_flat_without_darts_gets_none() -> None:
    """Half a pipe is exact."""
    skin = skin_patch(half_shell(31, 3.2, 100), None)
    assert skin is not None
    flat = laid_flat(skin, 3.0, 3.0)
    assert isinstance(flat, Flat)
    assert flat.darts == ()

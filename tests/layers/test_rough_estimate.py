"""A rough estimate stands near the full one."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.job import Material, Printer, Settings
from planner.layers import estimate_part, rough_estimate
from planner.mesh import Solid, posed
from planner.sourced import stated
from tests.shapes import Manifold, cylinder, solid_of


def _cuff() -> Manifold:
    """Return a half pipe on its open edges."""
    pipe = cylinder(70, 100, 96) - cylinder(64, 104, 96).translate((0, 0, -2))
    return pipe.rotate((0, 90, 0)).split_by_plane((0, 0, 1), 0)[0]


SOLIDS: dict[str, Callable[[], Manifold]] = {
    "cuff on its edges": _cuff,
    "cuff on its end": lambda: _cuff().rotate((0, -90, 0)),
    "block": lambda: Manifold.cube((40, 30, 20)),
    "plate": lambda: Manifold.cube((60, 40, 3)),
    "post": lambda: cylinder(20, 80, 96),
}


@pytest.mark.parametrize("name", SOLIDS)
def test_a_rough_estimate_is_near_the_full_one(name: str, printer: Printer, petg: Material, standard: Settings) -> None:
    """Within a quarter in time and a fifth in plastic: enough for poses that differ by hours or by support."""
    solid: Solid = posed(solid_of(SOLIDS[name]()), (0.0, 0.0, -1.0))
    rough = rough_estimate(solid, settings=standard, printer=printer, material=petg)
    full = estimate_part(solid, settings=standard, printer=printer, material=petg)

    assert rough.print_min == pytest.approx(full.duration_s / 60.0, rel=0.25)
    assert rough.plastic_g == pytest.approx(full.deposited_mm3 * 1.27e-3, rel=0.2)


def test_no_contours_at_all_are_all_fill(printer: Printer, petg: Material, standard: Settings) -> None:
    """A block without a contour, solid: its volume in plastic, in time that ends (it divided by their number)."""
    bare = replace(standard, contours_n=0, infill_percent=stated(100.0, "test"))
    rough = rough_estimate(
        posed(solid_of(Manifold.cube((20, 20, 10))), (0.0, 0.0, -1.0)), settings=bare, printer=printer, material=petg
    )

    assert rough.plastic_g == pytest.approx(4000 * 1.27e-3, rel=0.02)
    assert 0.0 < rough.print_min < 600.0


@pytest.mark.parametrize("over_mm", [0.0, 20.0])
def test_support_is_seen_where_something_hangs(
    over_mm: float, printer: Printer, petg: Material, standard: Settings
) -> None:
    """A post of 20 x 20 x 30 with a plate that reaches over it on two sides: its overhang times its height, or nothing."""
    plate = Manifold.cube((20 + 2 * over_mm, 20, 4)).translate((-over_mm, 0, 30))
    solid = posed(solid_of(Manifold.cube((20, 20, 30)) + plate), (0.0, 0.0, -1.0))
    rough = rough_estimate(solid, settings=standard, printer=printer, material=petg)

    assert rough.support_mm3 == pytest.approx(0.15 * 2 * over_mm * 20 * 30, rel=0.1)
    assert rough.supported_mm2 == pytest.approx(2 * over_mm * 20, rel=0.1)

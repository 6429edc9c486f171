"""Bores that cross others are narrowed, and what comes of it is what a drawing with the new bores would be."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from planner.finding import Vec3
from planner.mesh import written_sound
from planner.rebore.bore_plugs import OPENED_MM, crossed_by, fillings
from planner.rebore.recut import round_cutter
from planner.survey import Bore
from planner.survey.bores.bores import bores_of
from tests.shapes import Manifold, cylinder, solid_of

LONG, ACROSS = 6.0, 5.0
SHARE = 0.8
TURN: Vec3 = (31.0, 12.0, 77.0)


def _block(long_mm: float, across_mm: float, kind: str, n: int) -> Manifold:
    """Return a block with a long bore, and one that runs across it: through, up to its axis, beside it, or leaning."""
    body = Manifold.cube((60, 24, 24)) - cylinder(long_mm, 200, n).rotate((0, 90, 0)).translate((-50, 12, 12))
    upright = cylinder(across_mm, 80, n)
    return (
        body
        - {
            "through": upright.translate((20, 12, -20)),
            "up to its axis": upright.translate((20, 12, 12)),
            "beside": upright.translate((20, 14.5, -20)),
            "leaning": upright.translate((0, 0, -40)).rotate((0, 35, 0)).translate((25, 12, 12)),
        }[kind]
    )


def _narrowed(body: Manifold, wide_mm: tuple[float, ...], wider_mm: float) -> tuple[Manifold, Mapping[str, str]]:
    """Return a body with the bores of some diameters cut again at a share of them, and what is refused."""
    seen = _seen(body)
    bores = [bore for bore in seen if any(abs(bore.drawn_diameter_mm - d) < 0.01 for d in wide_mm)]
    sizes = {bore.id: SHARE * bore.drawn_diameter_mm for bore in bores}
    fills, refused = fillings(body, seen, bores, sizes, 1.0, wider_mm)
    filled = [bore for bore in bores if bore.id in fills]
    made, cuts = body, Manifold()
    for bore in filled:
        others = [(other, sizes[other.id]) for other in filled if other is not bore]
        buried, cut = round_cutter(body, bore, sizes[bore.id], 1.0, others)
        made, cuts = made + fills[bore.id] + buried, cuts + cut
    return (made - cuts).simplify(1e-4), refused


def _seen(body: Manifold) -> list[Bore]:
    """Return all bores of a body, certain and possible."""
    certain, possible = bores_of(solid_of(body))
    return [*certain, *possible]


@pytest.mark.parametrize(
    ("kind", "wide_mm"),
    [
        ("through", (LONG,)),
        ("through", (LONG, ACROSS)),
        ("up to its axis", (LONG,)),
        ("up to its axis", (ACROSS,)),
        ("up to its axis", (LONG, ACROSS)),
        ("beside", (LONG,)),
        ("leaning", (LONG,)),
        ("leaning", (LONG, ACROSS)),
    ],
)
def test_a_crossing_is_as_drawn_with_the_new_bores(kind: str, wide_mm: tuple[float, ...]) -> None:
    """Volume and place are those of the drawing but for what polygons of 64 sides may lie turned, in one sound piece.

    A polygon of n sides takes 2 pi^2 / (3 n^2) less than its circle: 1.7 mm3 of the long bore (geometry).
    """
    body = _block(LONG, ACROSS, kind, 64).rotate(TURN)
    long_mm, across_mm = (SHARE * d if d in wide_mm else d for d in (LONG, ACROSS))
    drawn = _block(long_mm, across_mm, kind, 64).rotate(TURN)

    tries = (_narrowed(body, wide_mm, wider_mm) for wider_mm in OPENED_MM)
    made, refused = next(one for one in tries if written_sound(solid_of(one[0])) and len(one[0].decompose()) == 1)

    assert not refused
    assert made.volume() == pytest.approx(drawn.volume(), abs=0.6)
    assert (made - drawn).volume() + (drawn - made).volume() < 2 * 1.7


def test_what_cannot_be_plugged_names_what_it_crosses() -> None:
    """Where three bores meet in one place, none is filled alone, and each refusal names the others."""
    body = _block(LONG, ACROSS, "through", 48) - cylinder(ACROSS, 80, 48).rotate((-90, 0, 0)).translate((20, -20, 12))
    seen = _seen(body)
    bore = max(seen, key=lambda one: one.depth_mm)

    fills, refused = fillings(body, seen, [bore], {bore.id: 4.8}, 1.0, 0.0)
    crossing = crossed_by(seen, body, bore, 1.0)

    assert not fills
    assert crossing
    assert all(name in refused[bore.id] for name in crossing)

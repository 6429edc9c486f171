"""Wide plates under a load at one place: against plate theory, where a beam of the whole width would be a wrong go."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.finding import Vec3
from planner.strength.beam.beam_pass import KNOTS, Weakest, weakest
from planner.strength.beam.cut_forces import beyond, cut_at
from planner.strength.beam.entering_strips import in_strip, strips_of_cut
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.beam.skin_and_core import Zones, zones_of
from planner.strength.criterion import Strengths
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support, as_vec
from tests.shapes import Manifold, cuboid, solid_of

STUFF = BeamStuff(
    strengths=Strengths(along_mpa=60.0, across_mpa=60.0, shear_mpa=60.0 / 3.0**0.5),
    normal=(0.0, 0.0, 1.0),
    side_mm=99.0,
    level_mm=99.0,
    infill_share=1.0,
)
"""As strong each way: the share is that of the stress of von Mises."""
LONG_MM, THICK_MM, FORCE_N = 20.0, 2.0, 10.0


def _held(y_mm: float, x_mm: float = 0.0) -> Support:
    """Return a wall behind the whole plate, told by its place opposite to the load."""
    return Support(at_mm=(x_mm, y_mm, THICK_MM / 2.0), spread_mm=((0.0, 1000.0, 0.0), (0.0, 0.0, 10.0)))


def _found(wide_mm: float, pushes: list[PartLoad], holds: list[Support], long_mm: float = LONG_MM) -> Weakest:
    """Return the weakest cut of a flat plate."""
    found = weakest(cuboid(long_mm, wide_mm, THICK_MM), (known_case(pushes, holds, "pushed"),), STUFF)
    assert found is not None
    return found


def _moment_per_n(found: Weakest) -> float:
    """Return the moment for each mm of width and 1 N that the weakest place's share stands for."""
    share = found.share_percent[KNOTS.index(1.0)] / 100.0
    return share * STUFF.strengths.along_mpa * THICK_MM**2 / 6.0 / FORCE_N


def _push(y_mm: float, wide_mm: float = 0.0, x_mm: float = LONG_MM) -> PartLoad:
    """Return a push across the plate that enters over a width."""
    over = ((0.0, wide_mm, 0.0),) if wide_mm else ()
    return PartLoad(at_mm=(x_mm, y_mm, THICK_MM), force_n=(0.0, 0.0, -FORCE_N), spread_mm=over)


def test_an_infinite_cantilever_plate_takes_half_the_force_at_its_wall() -> None:
    """Jaramillo 1950 has 0.509: here by a Fourier integral along the wall, and the rule is 0 to 20 % over it.

    For each wave number k the plate of length 1 is w = (a + b x) e^kx + (c + d x) e^-kx with w = w' = 0 at the wall, no
    moment and a shear of 1 at the free edge (Kirchhoff); the moment below the force is the integral over k, over π.
    """
    poisson = 0.3

    def at_wall(k: float) -> float:
        def rows(x: float) -> list[list[float]]:
            grow, fall = np.exp(k * (x - 1.0)), np.exp(-k * x)
            w = [grow, x * grow, fall, x * fall]
            d1 = [k * grow, (1 + k * x) * grow, -k * fall, (1 - k * x) * fall]
            d2 = [k**2 * grow, (2 * k + k**2 * x) * grow, k**2 * fall, (-2 * k + k**2 * x) * fall]
            d3 = [k**3 * grow, (3 * k**2 + k**3 * x) * grow, -(k**3) * fall, (3 * k**2 - k**3 * x) * fall]
            moment = [b - poisson * k**2 * a for a, b in zip(w, d2, strict=True)]
            shear = [b - (2 - poisson) * k**2 * a for a, b in zip(d1, d3, strict=True)]
            return [w, d1, moment, shear]

        wall, edge = rows(0.0), rows(1.0)
        shape = np.linalg.solve(np.array([wall[0], wall[1], edge[2], edge[3]]), [0.0, 0.0, 0.0, -1.0])
        return float(np.dot(wall[2], shape))

    waves = np.arange(0.005, 40.0, 0.01)
    moment = abs(sum(at_wall(float(k)) for k in waves)) * 0.01 / np.pi

    assert moment == pytest.approx(0.509, rel=0.01)
    found = _moment_per_n(_found(160.0, [_push(80.0)], [_held(80.0)]))
    assert moment < found < 1.2 * moment


FINE = [
    (0.5, 0.25, 0.0, 2.052),
    (1.0, 0.5, 0.0, 1.008),
    (2.0, 1.0, 0.0, 0.570),
    (3.0, 1.5, 0.0, 0.478),
    (6.0, 3.0, 0.0, 0.451),
    (1.0, 0.0, 0.0, 1.392),
    (2.0, 0.0, 0.0, 1.221),
    (4.0, 0.25, 0.0, 0.917),
    (4.0, 1.0, 0.0, 0.510),
    (4.0, 2.0, 1.0, 0.410),
    (4.0, 2.0, 2.0, 0.324),
]
"""Cantilever plates of length 1: width, the load's place and width along the free edge, and the greatest moment of von
Mises at the wall for 1 N. By Morley's triangles (scikit-fem 11, 24 to 48 cells a length, Poisson's ratio 0.38, mean of
two triangles), as the same mesh gives 0.52 for the moment across the wall of the infinite plate."""


@pytest.mark.parametrize(("wide", "at", "over", "fine"), FINE)
def test_cantilever_plates_of_every_width_are_within_a_third_and_never_ten_percent_low(
    wide: float, at: float, over: float, fine: float
) -> None:
    """Never more than 10 % under fine plates; up to 10 % over them where narrow, up to 32 % where wide."""
    wide_mm = wide * LONG_MM
    found = _found(wide_mm, [_push(at * LONG_MM, over * LONG_MM)], [_held(at * LONG_MM)])

    assert 0.9 < _moment_per_n(found) / fine < (1.1 if wide <= 2.0 else 1.32)
    assert (found.spread_mm > 0.0) == (wide > 1.75 or (at == 0.0 and wide > 0.85))


BRIDGES = [
    (4.0, 0.5, 2.0, 0.1, 0.339),
    (4.0, 0.5, 2.0, 0.2, 0.261),
    (1.0, 0.5, 0.5, 0.1, 0.365),
    (0.5, 0.5, 0.25, 0.1, 0.507),
    (4.0, 0.5, 0.05, 0.1, 0.702),
    (0.5, 0.5, 0.05, 0.1, 0.790),
]
"""Plates of length 1 that lie on both ends: width, the load's place along and across, the width of its round patch,
and the greatest moment of von Mises for 1 N, by the same elements."""


@pytest.mark.parametrize(("wide", "x", "y", "over", "fine"), BRIDGES)
def test_bridges_under_a_load_are_within_a_third_and_never_ten_percent_low(
    wide: float, x: float, y: float, over: float, fine: float
) -> None:
    """Never more than 10 % under fine plates, nor 15 % over them where narrow, 40 % where wide."""
    wide_mm, long_mm = wide * 60.0, 60.0
    ends = [_held(y * long_mm, far) for far in (0.0, long_mm)]
    found = _found(wide_mm, [_push(y * long_mm, over * long_mm, x * long_mm)], ends, long_mm)

    assert 0.9 < _moment_per_n(found) / fine < (1.15 if wide <= 1.0 else 1.4)


def _screwed(wide_mm: float) -> Weakest:
    """Return a long plate held by one screw of 4 mm in a bore, under a push over its whole width."""
    bore = Manifold.cylinder(9.0, 2.0, 2.0, 48).translate((10.0, wide_mm / 2.0, -1.0))
    plate = solid_of(Manifold.cube((60.0, wide_mm, THICK_MM)) - bore)
    screw = ((0.0, 0.0, THICK_MM), (16.0, 0.0, 0.0), (0.0, 16.0, 0.0))
    held = Support(at_mm=(10.0, wide_mm / 2.0, THICK_MM / 2.0), spread_mm=screw)
    push = PartLoad(at_mm=(60.0, wide_mm / 2.0, THICK_MM), force_n=(0.0, 0.0, -FORCE_N))
    found = weakest(plate, (known_case([push], [held], "pushed"),), STUFF)
    assert found is not None
    return found


def test_a_wide_plate_on_one_screw_is_no_stronger_than_a_narrower_one() -> None:
    """A disc of 8 mm that holds a plate takes M / (3 D) at most and M / (2 D) where it is 4 D wide (fine plates)."""
    narrow, wide, wider = (_moment_per_n(_screwed(wide_mm)) for wide_mm in (20.0, 60.0, 120.0))

    assert wide == pytest.approx(wider, rel=0.05)
    assert 46.0 / 26.0 < wide < 50.0 / 14.0
    assert narrow > wide


def test_a_load_that_nothing_tells_the_width_of_is_over_the_whole_section() -> None:
    """As a pin through the whole width: 10 N 20 mm over the width of 160 mm is 1.25 N, by hand."""
    push = PartLoad(at_mm=(LONG_MM, 80.0, THICK_MM), force_n=(0.0, 0.0, -FORCE_N))

    assert _found(160.0, [push], [_held(80.0)]).spread_mm == 0.0
    assert _moment_per_n(_found(160.0, [push], [_held(80.0)])) == pytest.approx(0.125, rel=0.02)


def test_a_flange_bends_beside_its_web_however_long_it_is() -> None:
    """A tee, pushed at its flange's edge: 0.51 F to 0.57 F over t² / 6 at the web (Jaramillo 1950), not the tee's W."""
    tee = solid_of(Manifold.cube((80.0, 40.0, 3.0)) + Manifold.cube((80.0, 4.0, 20.0)).translate((0.0, 18.0, -20.0)))
    at: Vec3 = (80.0, 20.0, 3.0)
    beside: Vec3 = (80.0, 38.0, 3.0)
    shares = []
    for place in (at, beside):
        push = PartLoad(at_mm=place, force_n=(0.0, 0.0, -FORCE_N), spread_mm=())
        held = Support(at_mm=(0.0, 20.0, -5.0))
        found = weakest(tee, (known_case([push], [held], "pushed"),), STUFF)
        assert found is not None
        shares.append(found.share_percent[KNOTS.index(1.0)] * 0.6)

    assert shares[1] > 0.5 * FORCE_N / (3.0**2 / 6.0)


def test_a_load_that_is_taken_up_on_its_own_side_of_a_cut_goes_through_no_strip() -> None:
    """Between two screws a plate carries nothing of what presses on the far side of one of them alone: as by statics."""
    push = PartLoad(at_mm=(30.0, 30.0, THICK_MM), force_n=(0.0, 0.0, -FORCE_N), spread_mm=())
    holds = [
        Support(at_mm=(x, 30.0, 1.0), spread_mm=((0.0, 0.0, 2.0), (4.0, 0.0, 0.0), (0.0, 4.0, 0.0)))
        for x in (10.0, 50.0)
    ]
    case = known_case([push], holds, "pushed")
    cut = cut_at(np.array([90.0, 30.0, 1.0]), np.array([-1.0, 0.0, 0.0]))
    whole = Zones(whole=shapely.box(-40.0, -40.0, 40.0, 40.0), core=shapely.Polygon(), core_share=1.0)

    for strip in strips_of_cut(cut, whole, beyond(cut, case.balanced), case.balanced):
        found = in_strip(strip, whole, cut)
        assert found is None or abs(found[0].rise_mpa_per_mm).max() < 1e-6


def test_loads_that_twist_a_section_against_each_other_do_not_add_up() -> None:
    """Two equal pushes beside the middle of a plate: no strip is twisted more than its own load twists it, by hand.

    20 mm ahead of the cut and 25 mm off the middle of 80 mm: a strip of 32 mm, of which 15 + 17 mm lie inside.
    """
    cut = cut_at(np.zeros(3), np.array([1.0, 0.0, 0.0]))
    whole = Zones(whole=shapely.box(-40.0, -1.0, 40.0, 1.0), core=shapely.Polygon(), core_share=1.0)
    sideways = cut.axes[0]
    pushes = [
        PartLoad(at_mm=as_vec(20.0 * cut.axes[2] + off * sideways), force_n=as_vec(5.0 * cut.axes[1]), spread_mm=())
        for off in (-25.0, 25.0)
    ]
    found = [in_strip(one, whole, cut) for one in strips_of_cut(cut, whole, pushes, ())]

    assert len(found) == 2
    for one in found:
        assert one is not None
        strip, zones = one
        assert zones.whole.area == pytest.approx(2.0 * 32.0)
        own = 5.0 * 1.0 * zones.torsion.shear_mpa_per_n_mm
        assert abs(strip.twist_mpa) == pytest.approx(abs(own - 125.0 * whole.torsion.shear_mpa_per_n_mm), rel=0.01)


@pytest.mark.parametrize("far_mm", [0.05, 0.3, 1.0, 8.0])
def test_a_point_above_a_hole_is_not_borne_by_slivers_of_its_rim(far_mm: float) -> None:
    """A cut askew through a bore leaves two plates 2.6 mm apart at their feet; a pull on the pin there is in the air.

    What brings it in is as wide as the hole: strips that bear it have 1 mm of both plates at least (it was 0.05 mm,
    and 27,000 % of the strength).
    """
    right = shapely.Polygon([(1.3, 0.0), (20.0, 0.0), (20.0, 6.0), (1.6, 6.0)])
    whole = right | shapely.transform(right, lambda points: points * np.array([-1.0, 1.0]))
    cut, zones = cut_at(np.zeros(3), np.array([0.0, 0.0, 1.0])), zones_of(whole, 99.0, 1.0)
    at = far_mm * cut.axes[2] + 9.0 * cut.axes[1]
    load = PartLoad(at_mm=as_vec(at), force_n=as_vec(18.0 * cut.axes[1]), spread_mm=())
    strips = list(strips_of_cut(cut, zones, [load], []))

    assert len(strips) == (far_mm > 1.0)
    assert all(strip.zones(zones).whole.area > 2 * 1.0 * 6.0 for strip in strips)

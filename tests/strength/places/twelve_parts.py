"""Flat parts of ours, loaded plainly, for two judges: ``python -m tests.strength.places.twelve_parts [NAME ...]``.

A fine even mesh in plane stress (:mod:`tests.strength.places.plane_stress`) that shares nothing with the product, and the
beam pass. The mesh takes seconds of each part, so that what it found is kept in :data:`FINE`; the test asks the beam pass
anew. What finite elements find of them is kept by :mod:`tests.strength.places.by_elements`.
"""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass, field, replace

import numpy as np
import shapely
from manifold3d import CrossSection, FillRule, Manifold

from planner.mesh import Solid
from planner.strength import Strengths
from planner.strength.beam.beam_pass import KNOTS, Weakest, weakest
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.loads.entering import entering
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.survey import survey
from tests.shapes import solid_of
from tests.strength.places import plane_stress

THICK_MM, LINE_MM, EDGE_MM = 6.0, 0.45, 0.3
NEAR_MM = 6.0
"""So far about a load and the clamp nobody tells: elements leave out three times a patch of 2 mm."""
POISSON = 0.38
STUFF = BeamStuff(
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=1.35,
    level_mm=0.8,
    infill_share=1.0,
)
At = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatPart:
    """A flat part, clamped at its end on x = 0 between two heights, and pushed at a place in its plane.

    Parameters
    ----------
    bore_mm
        The radius of the bore whose wall a pin presses; 0 where a load presses the outline.
    beam
        Whether it is a beam at its weakest place: slender, and without a notch.
    alike
        Heights about which part and load are alike.
    """

    outline: shapely.Polygon
    held_mm: At
    at_mm: At
    force_n: At
    bore_mm: float = 0.0
    beam: bool = False
    alike: tuple[float, ...] = field(default=())

    def solid(self, name: str) -> Solid:
        """Return it as a solid."""
        rings = [self.outline.exterior, *self.outline.interiors]
        points = [[(float(x), float(y)) for x, y in ring.coords[:-1]] for ring in rings]
        flat = CrossSection(points, FillRule.EvenOdd)
        return replace(solid_of(Manifold.extrude(flat, THICK_MM)), name=name)

    def case(self) -> LoadCase:
        """Return its load, in balance, as the product puts it together."""
        middle = THICK_MM / 2.0
        low, high = self.held_mm
        face = ((0.0, high - low, 0.0), (0.0, 0.0, THICK_MM))
        held = Support(at_mm=(0.0, (low + high) / 2.0, middle), spread_mm=face)
        spread = ((0.0, 0.0, THICK_MM), (8.0 * self.bore_mm, 0.0, 0.0), (0.0, 8.0 * self.bore_mm, 0.0))
        push = PartLoad(
            at_mm=(*self.at_mm, middle),
            force_n=(*self.force_n, 0.0),
            over="b1" if self.bore_mm else "",
            spread_mm=spread if self.bore_mm else None,
        )
        return known_case([push], [held], "its load")


def _path(points: list[At], wide_mm: float, fillet_mm: float = 0.0) -> shapely.Polygon:
    """Return a strip along a line with square ends; its inner corners are rounded."""
    strip = shapely.LineString(points).buffer(wide_mm / 2.0, cap_style="flat", join_style="mitre")
    return _filleted(strip, fillet_mm)


def _filleted(shape: shapely.Polygon, radius_mm: float) -> shapely.Polygon:
    """Return a shape with its inner corners rounded."""
    grown = shape.buffer(radius_mm, join_style="mitre", mitre_limit=20.0)
    return shapely.Polygon(shapely.simplify(grown.buffer(-radius_mm, quad_segs=24), 1e-4)) if radius_mm else shape


def _arc(centre: At, radius_mm: float, from_deg: float, to_deg: float) -> list[At]:
    """Return places along a circle, one each 3 degrees."""
    turns = np.radians(np.linspace(from_deg, to_deg, round(abs(to_deg - from_deg) / 3.0) + 1))
    return [(centre[0] + radius_mm * math.cos(turn), centre[1] + radius_mm * math.sin(turn)) for turn in turns]


def _round(at: At, radius_mm: float) -> shapely.Polygon:
    """Return a disc of 96 sides."""
    return shapely.Point(at).buffer(radius_mm, quad_segs=24)


def _plus(*shapes: shapely.Polygon) -> shapely.Polygon:
    """Return shapes as one."""
    return shapely.Polygon(shapely.union_all(shapes))


def _less(shape: shapely.Polygon, *holes: shapely.Polygon) -> shapely.Polygon:
    """Return a shape without others."""
    rest = shape.difference(shapely.union_all(holes))
    assert isinstance(rest, shapely.Polygon)
    return rest


_TAPERED = shapely.Polygon([(0, -12), (70, -4), (70, 4), (0, 12)])
_RING = _less(_plus(_round((30, 0), 15), shapely.box(0, -5, 18, 5), shapely.box(42, -5, 60, 5)), _round((30, 0), 10))
PARTS: dict[str, FlatPart] = {
    "angle": FlatPart(
        outline=_filleted(_plus(shapely.box(0, 0, 50, 14), shapely.box(42, 0, 50, 50)), 3.0),
        held_mm=(0, 14), at_mm=(50, 48), force_n=(-10, 0),
    ),
    "tee": FlatPart(
        outline=_filleted(_plus(shapely.box(0, 0, 60, 14), shapely.box(28, 14, 36, 50)), 3.0),
        held_mm=(0, 14), at_mm=(36, 48), force_n=(-12, 0),
    ),
    "channel beside a clamp": FlatPart(
        outline=_filleted(_plus(shapely.box(0, 0, 40, 8), shapely.box(32, 0, 40, 40), shapely.box(4, 32, 40, 40)), 3.0),
        held_mm=(0, 8), at_mm=(6, 40), force_n=(0, -12),
    ),
    "lug": FlatPart(
        outline=_less(_plus(shapely.box(0, -8, 40, 8), _round((40, 0), 8)), _round((40, 0), 3)),
        held_mm=(-8, 8), at_mm=(40, 0), force_n=(150, 0), bore_mm=3.0, alike=(0.0,),
    ),
    "tapered lever": FlatPart(
        outline=_TAPERED, held_mm=(-12, 12), at_mm=(69, 4), force_n=(0, -30), beam=True, alike=(0.0,),
    ),
    "stepped bar": FlatPart(
        outline=_filleted(_plus(shapely.box(0, -9, 30, 9), shapely.box(30, -5, 65, 5)), 2.0),
        held_mm=(-9, 9), at_mm=(64, 5), force_n=(0, -20), alike=(0.0,),
    ),
    "slotted bar": FlatPart(
        outline=_less(shapely.box(0, -9, 70, 9), _plus(shapely.box(22, -3, 48, 3), _round((22, 0), 3), _round((48, 0), 3))),
        held_mm=(-9, 9), at_mm=(69, 9), force_n=(0, -40),
    ),
    "ring link": FlatPart(
        outline=_filleted(_RING, 2.0), held_mm=(-5, 5), at_mm=(60, 0), force_n=(60, 0), alike=(0.0,),
    ),
    "hook": FlatPart(
        outline=_path([(0, 0), (30, 0), *_arc((30, -16), 16, 87, -90)], 8.0),
        held_mm=(-4, 4), at_mm=(30, -28), force_n=(30, 0), beam=True,
    ),
    "fork": FlatPart(
        outline=_filleted(_plus(shapely.box(0, -12, 25, 12), shapely.box(25, 5, 60, 12), shapely.box(25, -12, 60, -5)), 3.0),
        held_mm=(-12, 12), at_mm=(58, 12), force_n=(0, -20),
    ),
    "plate with two bores": FlatPart(
        outline=_less(shapely.box(0, -10, 70, 10), _round((28, 0), 3), _round((44, 0), 3)),
        held_mm=(-10, 10), at_mm=(70, 0), force_n=(400, 0), alike=(0.0,),
    ),
    "curved arm": FlatPart(
        outline=_path([(0, 0), (15, 0), *_arc((15, 30), 30, -87, 0), (45, 40)], 10.0),
        held_mm=(-5, 5), at_mm=(50, 39), force_n=(-20, 0), beam=True,
    ),
}  # fmt: skip
"""All invented."""
FINE: dict[str, tuple[At, float]] = {
    "angle": ((41.8, 15.9), 17.3),
    "tee": ((27.9, 16.1), 18.2),
    "channel beside a clamp": ((31.9, 10.1), 20.1),
    "lug": ((40.7, 3.0), 24.8),
    "tapered lever": ((33.7, 8.1), 10.0),
    "stepped bar": ((31.5, 5.0), 23.1),
    "slotted bar": ((48.7, -3.0), 29.7),
    "ring link": ((44.1, -5.5), 18.9),
    "hook": ((31.8, -4.1), 39.9),
    "fork": ((27.3, 4.9), 42.0),
    "plate with two bores": ((44.2, 3.0), 24.4),
    "curved arm": ((19.0, 5.2), 22.4),
}
"""Where :func:`reference` finds them weakest, in mm, and the share of the strength there, in percent; edges of 0.22 mm for
the first, second, fifth and sixth, else of 0.3."""


def beam_pass(name: str) -> tuple[Weakest, float]:
    """Return what the beam pass says, and its share as drawn."""
    part = PARTS[name]
    solid = part.solid(name)
    found = weakest(solid, (entering(part.case(), survey(solid)),), STUFF)
    assert found is not None
    return found, found.share_percent[KNOTS.index(1.0)]


def reference(name: str, edge_mm: float = EDGE_MM) -> tuple[At, float]:
    """Return where a fine even mesh finds a part weakest, and the share of its strength there."""
    part = PARTS[name]
    reach_mm = 2.0 if not part.bore_mm else 0.0
    push = plane_stress.Pushed(at_mm=part.at_mm, force_n=part.force_n, reach_mm=reach_mm, bore_mm=part.bore_mm)
    plane = plane_stress.meshed(part.outline, edge_mm)
    stress = plane_stress.stresses_mpa(plane, THICK_MM, [push], part.outline, POISSON)
    low, high = part.held_mm
    clamp = [((0.0, y), NEAR_MM) for y in np.linspace(low, high, 9)]
    about = [] if part.bore_mm else [(part.at_mm, NEAR_MM)]
    at, most_mpa = plane_stress.weakest(plane, stress, LINE_MM, [*clamp, *about])
    return at, 100.0 * most_mpa / STUFF.strengths.along_mpa


def apart_mm(name: str, one: At, other: At) -> float:
    """Return how far two places of a part are apart; where part and load are alike on both sides, so are places."""
    mirrors = [one, *((one[0], 2.0 * middle - one[1]) for middle in PARTS[name].alike)]
    return min(math.dist(at, other) for at in mirrors)


def main(names: list[str]) -> None:
    """Print what a fine mesh and the beam pass say of parts."""
    print("part | fine mesh, % at mm | cuts, % | with notches and legs, % | at mm | apart, mm")
    for name in names or PARTS:
        (x, y), percent = reference(name)
        beam, cuts_percent = beam_pass(name)
        most = cuts_percent * max(beam.notch_ratio, beam.legs_ratio)
        told = f"{name} | {percent:.1f} ({x:.1f}, {y:.1f}) | {cuts_percent:.1f} | {most:.1f} | "
        print(f"{told}({beam.at_mm[0]:.1f}, {beam.at_mm[1]:.1f}) | {apart_mm(name, beam.at_mm[:2], (x, y)):.1f}")


if __name__ == "__main__":
    main(sys.argv[1:])

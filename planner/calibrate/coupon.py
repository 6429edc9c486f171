"""The coupon: one small print from which a printer's own offsets can be measured with calipers and drill shanks."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from manifold3d import CrossSection, FillRule, Manifold, OpType

from planner.mesh import Solid, arrays_of

FeatureKind = Literal["upright", "lying", "pin", "wall", "gap", "bridge", "overhang", "along-x", "along-y", "height"]

FACETS_N = 64
DIAMETERS_MM = (3.0, 4.0, 5.0, 6.0, 8.0)
PINS_MM = (4.0, 6.0)
WALL_LINES = (0.8, 1.0, 1.5, 2.0, 3.0)
GAPS_MM = (0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50)
BRIDGES_MM = (4.0, 6.0, 8.0, 10.0)
LEANS_DEG = (40.0, 50.0, 60.0)
LONG_MM, BASE_MM, BASE_HIGH_MM = 74.0, 12.0, 1.2
BAR_MM, BAR_HIGH_MM = 3.4, 11.0
PAST_MM = 0.3
"""Bores through the bar are cut this far beyond it: less than the way to what stands before it on the shelf."""
SHELF_MM, BLOCK_MM, RISE_MM = 8.4, 3.6, 3.2
POST_MM, GATE_HIGH_MM, ROOF_MM = 1.6, 2.6, 1.0
LEAN_HIGH_MM, LEAN_WIDE_MM, SPINE_MM = 4.0, 3.0, 1.6


@dataclass(frozen=True, slots=True, kw_only=True)
class CouponFeature:
    """One thing to measure: its kind, its size as drawn, and for a bore the size inside its facets, in mm.

    The size of a bridge is its span, that of an overhang how far it reaches out over ``LEAN_HIGH_MM`` of height.
    """

    name: str
    kind: FeatureKind
    drawn_mm: float
    inside_mm: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Coupon:
    """The coupon's mesh, standing as it is printed, and its features in the order in which they lie."""

    solid: Solid
    features: tuple[CouponFeature, ...]


def coupon(line_width_mm: float, job_bore_mm: float | None = None) -> Coupon:
    """Return the coupon for a line width; ``job_bore_mm`` is a bore of a job, as drawn at size, for both ladders.

    A plate carries upright bores, pins, walls and slits; a bar along its back carries horizontal bores, a row along its
    front gates to be bridged and wedges that lean out. The plate's length and breadth and the bar's height are the
    scales. It is printed without support.
    """
    diameters = sorted({*DIAMETERS_MM, *([round(job_bore_mm, 2)] if job_bore_mm else [])})
    pitch = max(LONG_MM / len(diameters), max(diameters) + 3.0)
    long = max(LONG_MM, pitch * len(diameters))
    base = max(BASE_MM, max(diameters) + 4.0)
    deep = base + SHELF_MM
    high = max(BAR_HIGH_MM, max(diameters) + 3.0)
    body = Manifold.cube((long, deep, BASE_HIGH_MM)) + Manifold.cube((long, BAR_MM, high)).translate(
        (0, deep - BAR_MM, 0)
    )
    features: list[CouponFeature] = []
    cuts, adds = [], []
    for k, diameter in enumerate(diameters):
        x, r = (k + 0.5) * pitch, diameter / 2
        cuts.append(
            Manifold.cylinder(3 * BASE_HIGH_MM, r, r, FACETS_N, center=True).translate(
                (x, base - 1.5 - max(diameters) / 2, 0)
            )
        )
        lying = Manifold.cylinder(BAR_MM + 2 * PAST_MM, r, r, FACETS_N, center=True).rotate((90, 0, 0))
        cuts.append(lying.translate((x, deep - BAR_MM / 2, BASE_HIGH_MM + (high - BASE_HIGH_MM) / 2)))
        inside = diameter * math.cos(math.pi / FACETS_N)
        features.append(
            CouponFeature(name=f"upright {diameter:g}", kind="upright", drawn_mm=diameter, inside_mm=inside)
        )
    features += [
        CouponFeature(name=f"lying {f.drawn_mm:g}", kind="lying", drawn_mm=f.drawn_mm, inside_mm=f.inside_mm)
        for f in features
    ]
    shelf = base + (SHELF_MM - BAR_MM) / 2
    x = 5.0
    for diameter in PINS_MM:
        back = shelf + BLOCK_MM / 2 - diameter / 2  # in line with the walls' backs, clear of the bar
        adds.append(Manifold.cylinder(RISE_MM, diameter / 2, diameter / 2, FACETS_N).translate((x, back, BASE_HIGH_MM)))
        features.append(CouponFeature(name=f"pin {diameter:g}", kind="pin", drawn_mm=diameter, inside_mm=diameter))
        x += 8.0
    for lines in WALL_LINES:
        thick = round(lines * line_width_mm, 2)
        adds.append(Manifold.cube((thick, BLOCK_MM, RISE_MM)).translate((x, shelf - BLOCK_MM / 2, BASE_HIGH_MM)))
        features.append(CouponFeature(name=f"wall {thick:g}", kind="wall", drawn_mm=thick, inside_mm=thick))
        x += thick + 2.5
    for gap in GAPS_MM:
        adds.append(Manifold.cube((3.0, BLOCK_MM, RISE_MM)).translate((x, shelf - BLOCK_MM / 2, BASE_HIGH_MM)))
        x += 3.0 + gap
        features.append(CouponFeature(name=f"gap {gap:g}", kind="gap", drawn_mm=gap, inside_mm=gap))
    adds.append(Manifold.cube((3.0, BLOCK_MM, RISE_MM)).translate((x, shelf - BLOCK_MM / 2, BASE_HIGH_MM)))
    row, more = _front_row()
    adds.append(row)
    features += more
    for name, kind, size in (("length", "along-x", long), ("breadth", "along-y", deep), ("height", "height", high)):
        features.append(CouponFeature(name=name, kind=kind, drawn_mm=size, inside_mm=size))  # type: ignore[arg-type]
    body = Manifold.batch_boolean([body, *adds], OpType.Add) - Manifold.batch_boolean(cuts, OpType.Add)
    vertices_mm, faces = arrays_of(body)
    solid = Solid(name="coupon", vertices_mm=vertices_mm, faces=faces, sha256="")
    return Coupon(solid=solid, features=_ordered(features))


def _front_row() -> tuple[Manifold, list[CouponFeature]]:
    """Return a row along the plate's front: gates to be bridged, then wedges that lean out forward."""
    features, x = [], POST_MM
    high, lean_high = BASE_HIGH_MM + GATE_HIGH_MM, BASE_HIGH_MM + LEAN_HIGH_MM
    long = sum(BRIDGES_MM) + POST_MM * (len(BRIDGES_MM) + 1)
    row = Manifold.cube((long, BAR_MM + 0.5, high + ROOF_MM)).translate((0, -BAR_MM, 0))
    for span in BRIDGES_MM:
        row -= Manifold.cube((span, 3 * BAR_MM, GATE_HIGH_MM)).translate((x, -2 * BAR_MM, BASE_HIGH_MM))
        features.append(CouponFeature(name=f"bridge {span:g}", kind="bridge", drawn_mm=span, inside_mm=span))
        x += span + POST_MM
    wide = (LEAN_WIDE_MM + POST_MM) * len(LEANS_DEG)
    row += Manifold.cube((wide, SPINE_MM + 0.5, lean_high + ROOF_MM)).translate((x - 0.5, -SPINE_MM, 0))
    for lean in LEANS_DEG:
        reach = LEAN_HIGH_MM * math.tan(math.radians(lean))
        top = lean_high + ROOF_MM
        side = [(0.5, BASE_HIGH_MM), (0.5, top), (-reach, top), (-reach, lean_high), (0.0, BASE_HIGH_MM)]
        wedge = Manifold.extrude(CrossSection([side], FillRule.NonZero), LEAN_WIDE_MM).rotate((90, 0, 90))
        row += wedge.translate((x, -SPINE_MM, 0))
        name = f"overhang {lean:g} deg"
        features.append(CouponFeature(name=name, kind="overhang", drawn_mm=reach, inside_mm=reach))
        x += LEAN_WIDE_MM + POST_MM
    return row, features


def _ordered(features: Sequence[CouponFeature]) -> tuple[CouponFeature, ...]:
    """Return the features by kind, then by size."""
    kinds = ("upright", "lying", "pin", "wall", "gap", "bridge", "overhang", "along-x", "along-y", "height")
    return tuple(sorted(features, key=lambda one: (kinds.index(one.kind), one.drawn_mm)))

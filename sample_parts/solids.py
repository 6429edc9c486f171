"""Building blocks: plates with round corners, bores, slots, tubes along an arc."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np
from manifold3d import CrossSection, Manifold, OpType

_ADD = OpType.Add


def bore(diameter: float, depth: float, n: int, *, axis: str = "z") -> Manifold:
    """Return a cylinder of n facets through its vertices, centred on the origin, to cut with."""
    along_z = Manifold.cylinder(depth, diameter / 2, diameter / 2, n, True)
    turns = {"x": (0.0, 90.0, 0.0), "y": (90.0, 0.0, 0.0), "z": (0.0, 0.0, 0.0)}
    return along_z.rotate(turns[axis])


def slot_outline(length: float, width: float, n: int) -> CrossSection:
    """Return a slot with round ends of n facets each, long side along x, centred."""
    half = (length - width) / 2
    right = [
        (half + width / 2 * math.cos(a), width / 2 * math.sin(a)) for a in np.linspace(-math.pi / 2, math.pi / 2, n + 1)
    ]
    left = [(-x, -y) for x, y in right]
    return CrossSection([right + left])


def rounded(length: float, width: float, radius: float, n: int = 32) -> CrossSection:
    """Return a rectangle with round corners, centred; n is the number of facets of a whole circle."""
    inner = CrossSection.square((length - 2 * radius, width - 2 * radius), True)
    corner = CrossSection.circle(radius, n)
    x, y = length / 2 - radius, width / 2 - radius
    corners = [corner.translate((sx * x, sy * y)) for sx in (-1, 1) for sy in (-1, 1)]
    return CrossSection.batch_hull([inner, *corners])


def plate(outline: CrossSection, thick: float, chamfer: float = 0.0) -> Manifold:
    """Return an extruded outline centred on z = 0, its edges broken by a chamfer."""
    body = Manifold.extrude(outline, thick).translate((0, 0, -thick / 2))
    if not chamfer:
        return body
    small = Manifold.extrude(outline.offset(-chamfer), thick).translate((0, 0, -thick / 2))
    middle = Manifold.extrude(outline, thick - 2 * chamfer).translate((0, 0, -thick / 2 + chamfer))
    pieces = [Manifold.batch_hull([a, b]) for a, b in zip(small.decompose(), middle.decompose(), strict=True)]
    return Manifold.batch_boolean(pieces, _ADD) if outline_convex(outline) else body


def outline_convex(outline: CrossSection) -> bool:
    """Return whether an outline is convex."""
    return bool(abs(outline.hull().area() - outline.area()) < 1e-6 * outline.area())


def bar(points: Sequence[tuple[float, float]], radii: Sequence[float], n: int = 64) -> CrossSection:
    """Return a bar that runs from circle to circle with tangent sides."""
    circles = [CrossSection.circle(r, n).translate(p) for p, r in zip(points, radii, strict=True)]
    spans = [CrossSection.batch_hull([a, b]) for a, b in itertools.pairwise(circles)]
    return CrossSection.batch_boolean(spans, _ADD) if len(spans) > 1 else spans[0]


def bent_tube(radius: float, bend_radius: float, angle_deg: float, n: int, steps: int) -> Manifold:
    """Return a quarter-like bend of a round tube, beginning at the origin along +x, turning to +z."""
    circle = CrossSection.circle(radius, n).translate((bend_radius, 0))
    ring = Manifold.revolve(circle, round(steps * 360 / angle_deg), angle_deg)  # about z, from +x
    return ring.rotate((90, 0, 0)).translate((-bend_radius, 0, 0)).rotate((0, 90, 0)).translate((0, 0, 0))

"""The outline of a piece of padding, drawn as SVG: rings in mm, and their area."""

from __future__ import annotations

import io
import math
from pathlib import Path

import shapely
import svgelements

from planner.errors import JobError
from planner.job.file.toml_file import BYTES_MOST

Rings = tuple[tuple[tuple[float, float], ...], ...]
PX_PER_INCH = 96.0
"""A unit of SVG without a name is a px, and 96 px are an inch: CSS Values and Units 3, section 5.2."""
MM_PER_PX = 25.4 / PX_PER_INCH
CHORD_MM = 0.5
"""Curves become chords no longer than this: on a radius of 5 mm the outline is then off by 0.006 mm (c²/8r)."""
POINTS_MOST = 20_000


def read_outline(path: Path) -> Rings:
    """Return the closed shapes of an SVG file as rings in mm, y upward, the lowest corner at (0, 0).

    A shape inside another is a hole (even-odd rule). Sizes in mm, cm, in or pt and a ``viewBox`` are heeded.

    Raises
    ------
    JobError
        Where the file is no SVG, holds no closed shape, or an outline crosses itself.
    """
    rings = [_closed(points, path) for points in _polylines(path) if len(points) >= 3]
    whole = shapely.Polygon()
    for ring in rings:
        whole = whole.symmetric_difference(ring)
    if whole.is_empty or whole.area < 1.0:
        raise JobError(where=path.name, wrong="it holds no closed outline", todo="draw the padding as one closed path")
    left, low, _, _ = whole.bounds
    polygons = [part for part in shapely.get_parts(whole) if part.geom_type == "Polygon"]
    return tuple(
        tuple((x - left, y - low) for x, y in list(ring.coords)[:-1])
        for polygon in polygons
        for ring in (polygon.exterior, *polygon.interiors)
    )


def area_mm2(rings: Rings) -> float:
    """Return the area inside rings by the even-odd rule, in mm²."""
    whole = shapely.Polygon()
    for ring in rings:
        whole = whole.symmetric_difference(shapely.Polygon(ring))
    return float(whole.area)


def _polylines(path: Path) -> list[list[tuple[float, float]]]:
    """Return every subpath of every shape as points in mm, y upward."""
    raw = path.read_bytes()
    if len(raw) > BYTES_MOST or b"<!ENTITY" in raw:
        raise JobError(where=path.name, wrong="it is too large or defines entities", todo="save it as plain SVG")
    try:
        drawing = svgelements.SVG.parse(io.BytesIO(raw), ppi=PX_PER_INCH)
        shapes = [svgelements.Path(shape) for shape in drawing.elements() if isinstance(shape, svgelements.Shape)]
        found = [_points(svgelements.Path(part)) for shape in shapes for part in abs(shape).as_subpaths()]
    except Exception as problem:  # noqa: BLE001  the reader raises whatever its parts do: one sentence for all
        told = str(problem).split("\n")[0][:80] or type(problem).__name__
        raise JobError(
            where=path.name, wrong=f"it is not SVG that can be read ({told})", todo="save it again"
        ) from None
    if sum(map(len, found)) > POINTS_MOST:
        raise JobError(where=path.name, wrong="its outline has too many points", todo="simplify the drawing")
    if not all(math.isfinite(value) for points in found for point in points for value in point):
        raise JobError(where=path.name, wrong="a coordinate is not a finite number", todo="save it again")
    return found


def _points(path: svgelements.Path) -> list[tuple[float, float]]:
    """Return the points of one subpath in mm; curves as short chords."""
    found: list[tuple[float, float]] = []
    for segment in path:
        if isinstance(segment, svgelements.Move):
            continue
        straight = isinstance(segment, svgelements.Line | svgelements.Close)
        if segment.start is None or segment.end is None:
            continue
        n = 1 if straight else max(8, min(2000, math.ceil(segment.length(error=1e-3) * MM_PER_PX / CHORD_MM)))
        steps = [segment.point(k / n) for k in range(n)]
        found += [(point.x * MM_PER_PX, -point.y * MM_PER_PX) for point in steps]
    if len(path) and path[-1].end is not None:
        found.append((path[-1].end.x * MM_PER_PX, -path[-1].end.y * MM_PER_PX))
    return found


def _closed(points: list[tuple[float, float]], path: Path) -> shapely.Polygon:
    """Return a polygon; refuse one that crosses itself."""
    ring = shapely.Polygon(points)
    if not ring.is_valid:
        raise JobError(where=path.name, wrong="an outline crosses itself", todo="draw it without crossings")
    return ring

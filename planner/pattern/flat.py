"""The padding of a patch laid flat: its outline at half its thickness, and how true that is."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
import shapely

from planner.pattern.dart import Dart
from planner.pattern.darts import darted
from planner.pattern.least_stretch import least_stretch, stretch
from planner.pattern.patch import Floats, Ints, Patch
from planner.pattern.skin_patch import SkinPatch
from planner.pattern.unrolled import Ring, loops_of, unrolled_plane, unrolled_round

CUT_MM = 10.0
"""Openings this long are cut out, for straps; shorter ones, for screws, are marked (common practice, no source)."""
LEVEL_MM = 0.1
"""A patch is a plane where no vertex lies farther off."""
AREA_SHARE = 0.01
"""An exact pattern must have the area of the layer to this share: chords of a coarse mesh take up to 0.6 %."""
FOLD_SHARE = 0.001
"""Triangles that turn over where the padding's face is take at most this share of the area."""
FINE_MM = 0.005
"""Points of an outline that lie nearer to the line between their neighbours are left out."""
Method = Literal["plane", "cylinder", "cone", "least stretch"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """A pattern in mm, seen from the skin, its lower left corner at (0, 0).

    Parameters
    ----------
    rings
        The outline, then what is cut out of it.
    marks
        Middles of openings that are not cut out.
    method
        Plane, cylinder and cone are exact.
    area_mm2
        Of the pattern, less what is cut out.
    layer_mm2
        Of the layer in the middle of the padding, as it lies on the part, less all openings.
    stretch_percent
        The largest change of any length, with its darts; 0 where exact.
    edge_mm
        How much all edges together are longer or shorter than on the part; 0 where exact.
    darts
        What is cut into the outline so that it lies with less stretch; the outline runs along them.
    bare_percent
        The stretch without darts; None where there are none, or where it would lie over itself without them.
    radius_mm, half_deg
        Of a cylinder or cone on the part: radius in its middle, half angle.
    """

    rings: tuple[Ring, ...]
    marks: tuple[tuple[float, float], ...]
    method: Method
    area_mm2: float
    layer_mm2: float
    stretch_percent: float = 0.0
    edge_mm: float = 0.0
    darts: tuple[Dart, ...] = ()
    bare_percent: float | None = None
    radius_mm: float | None = None
    half_deg: float | None = None

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height."""
        x, y = zip(*self.rings[0], strict=True)
        return max(x), max(y)


def laid_flat(skin: SkinPatch, thick_mm: float, most_percent: float = math.inf) -> Flat | str:
    """Return the pattern of padding of a thickness on a patch; or why there is none, in words.

    Where it would be stretched by more than ``most_percent``, darts are cut into it, as few as will do.
    """
    patch, fit = skin.patch, skin.fit
    layer = patch.offset(thick_mm / 2)
    if _folds(skin, thick_mm):
        return f"the surface is bent too tightly for padding of {thick_mm:g} mm: it would fold"
    if _level(patch):
        rings = unrolled_plane(patch)
        return _exact(rings, "plane", layer) if rings else "the surface has no edge"
    if fit is not None:
        rings = unrolled_round(patch, fit, thick_mm / 2)
        if rings is None:
            return "it goes all the way round, and its openings leave no straight line along which it can be cut"
        method: Method = "cone" if fit.slope_ratio else "cylinder"
        half = math.degrees(math.atan(fit.slope_ratio))
        return _exact(rings, method, layer, fit.radius_mm, half)
    return _stretched(layer, most_percent)


def _folds(skin: SkinPatch, thick_mm: float) -> bool:
    """Return whether the padding's face on the skin has nowhere to go; slivers beside openings do not count."""
    if skin.fit is not None:
        _, z, _ = skin.fit.seen(skin.patch.vertices_mm)
        narrow = skin.fit.radius_mm + skin.fit.slope_ratio * float(z.min())
        return skin.fit.sense < 0 and narrow <= thick_mm
    far = skin.patch.offset(thick_mm)
    turned = np.einsum("ij,ij->i", skin.patch.crosses_mm2, far.crosses_mm2) < 0.0
    return float(skin.patch.areas_mm2[turned].sum()) > FOLD_SHARE * skin.patch.area_mm2


def _level(patch: Patch) -> bool:
    """Return whether a patch is a plane."""
    normal = patch.crosses_mm2.sum(axis=0)
    normal /= np.linalg.norm(normal)
    return float(np.abs((patch.vertices_mm - patch.vertices_mm.mean(axis=0)) @ normal).max()) <= LEVEL_MM


def _exact(
    rings: tuple[Ring, ...], method: Method, layer: Patch, radius_mm: float | None = None, half_deg: float | None = None
) -> Flat | str:
    """Return an exact pattern, or why it is none: it crosses itself, or its area is not that of the layer."""
    whole = shapely.Polygon(rings[0], rings[1:])
    if not whole.is_valid:
        return "its outline crosses itself when it is laid flat"
    if abs(whole.area - layer.area_mm2) > AREA_SHARE * layer.area_mm2:
        return (
            f"laid flat it has {whole.area / 100:.1f} cm² instead of {layer.area_mm2 / 100:.1f}: its mesh is too coarse"
        )
    found = _placed(whole, method, layer.area_mm2)
    return replace(found, radius_mm=radius_mm, half_deg=half_deg)


def _stretched(layer: Patch, most_percent: float) -> Flat | str:
    """Return the pattern of least stretch, with darts where they make it lie better; or why there is none."""
    edges = len(layer.faces) * 3 / 2 + sum(map(len, layer.loops)) / 2
    if not layer.loops or len(layer.vertices_mm) - edges + len(layer.faces) != 2 - len(layer.loops):
        return "it is no sheet with edges (a handle or a ring of free form): it cannot be laid flat without being cut"
    bare = _laid(layer, ())
    found = bare
    if bare is None or bare.stretch_percent > most_percent:
        for one in darted(layer):
            cut = _laid(one.patch, one.sides)
            if cut is not None and (found is None or cut.stretch_percent < found.stretch_percent):
                found = replace(cut, bare_percent=bare.stretch_percent if bare else None)
            if found is not None and found.stretch_percent <= most_percent:
                break
    return found or "laid flat it would lie over itself, also with darts: it is bent too much both ways"


def _laid(layer: Patch, sides: Sequence[tuple[Ints, Ints]]) -> Flat | None:
    """Return a layer with the least stretch, and its darts; None where it would lie over itself."""
    flat = least_stretch(layer)
    told = stretch(layer, flat)
    rings = sorted(loops_of(layer.loops, flat), key=lambda ring: -shapely.Polygon(ring).area)
    whole = shapely.Polygon(rings[0], rings[1:])
    if told.turned_over_n or not whole.is_valid:
        return None
    edge = sum(
        abs(
            np.linalg.norm(np.roll(layer.vertices_mm[c], 1, axis=0) - layer.vertices_mm[c], axis=1)
            - np.linalg.norm(np.roll(flat[c], 1, axis=0) - flat[c], axis=1)
        ).sum()
        for c in layer.loops
    )
    corner = whole.bounds[:2]
    darts = tuple(Dart(left=_line(flat[left] - corner), right=_line(flat[right] - corner)) for left, right in sides)
    return replace(
        _placed(whole, "least stretch", layer.area_mm2),
        stretch_percent=told.most_percent,
        edge_mm=float(edge),
        darts=darts,
    )


def _line(points: Floats) -> Ring:
    """Return points as a line."""
    return tuple((float(x), float(y)) for x, y in points)


def _placed(whole: shapely.Polygon, method: Method, layer_mm2: float) -> Flat:
    """Return a pattern with its corner at the origin, long openings cut out and short ones marked."""
    left, low, _, _ = whole.bounds
    cut, marks = [], []
    for hole in whole.interiors:
        shape = shapely.Polygon(hole)
        if 2 * shapely.minimum_bounding_radius(shape) >= CUT_MM:
            cut.append(hole)
        else:
            marks.append((float(shape.centroid.x) - left, float(shape.centroid.y) - low))
    rings = tuple(
        tuple((float(x) - left, float(y) - low) for x, y in list(ring.simplify(FINE_MM).coords)[:-1])
        for ring in (whole.exterior, *cut)
    )
    area = shapely.Polygon(rings[0], rings[1:]).area
    return Flat(rings=rings, marks=tuple(marks), method=method, area_mm2=float(area), layer_mm2=layer_mm2)

"""The layer view: what a line of a given width cannot lay in a pose, by the opening of sections.

A wall by its opposed faces may be thick enough and still leave slivers in a section: where it leans, or runs out.
The opening of a section (shrunk by half the line, grown again) is what such a line can reach.
"""

from __future__ import annotations

import bisect
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from manifold3d import CrossSection, JoinType

from planner.cache import kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid, posed
from planner.survey.survey import Floats

VIEW_VERSION = 2
"""Raised whenever the view changes, so that kept ones are not trusted."""
SECTIONS_N = 32
WIDTHS_MM = (0.2, 0.3, 0.4, 0.5, 0.7, 1.0, 1.4)
"""Line widths that are tried, as drawn; others lie between."""
CORNER = 0.5
"""A piece smaller than this times the width squared is the rounding of a corner (0.05 for a right angle)."""
SEGMENTS = 16
FINE_MM = 0.002
"""Corners of a section that lie this near to its line tell nothing: a printer repeats some hundredths of a millimetre,
and the offset of a contour of ten thousand corners takes seconds."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LayerView:
    """Share of a part's matter that a line of each width cannot lay, and the height where most of it is, as drawn."""

    widths_mm: Floats
    share: Floats
    height_mm: Floats

    def __eq__(self, other: object) -> bool:
        """Return whether another view is the same, number by number."""
        return isinstance(other, LayerView) and self._bytes == other._bytes

    def __hash__(self) -> int:
        """Return a number that equals have in common."""
        return hash(self._bytes)

    @property
    def _bytes(self) -> bytes:
        """All numbers."""
        return b"".join(each.tobytes() for each in (self.widths_mm, self.share, self.height_mm))

    def unlaid_share(self, width_mm: float) -> float:
        """Return the share at a width, straight between the widths that were tried; nothing below the least.

        In plain numbers, so that whoever follows a scale through the rules can follow it through here.
        """
        widths: list[float] = self.widths_mm.tolist()
        shares: list[float] = self.share.tolist()
        above = bisect.bisect_right(widths, width_mm)
        if above == 0:
            return 0.0
        if above == len(widths):
            return shares[-1]
        slope = (shares[above] - shares[above - 1]) / (widths[above] - widths[above - 1])
        return shares[above - 1] + slope * (width_mm - widths[above - 1])

    def worst_height_mm(self, width_mm: float) -> float:
        """Return the height above the bed where the next tried width loses most."""
        index = min(bisect.bisect_left(self.widths_mm.tolist(), width_mm), len(self.widths_mm) - 1)
        return float(self.height_mm[index])


def layer_view(solid: Solid, down: Vec3) -> LayerView | None:
    """Return the layer view of a solid in a pose; None where it is not sound."""
    if solid.manifold is None:
        return None
    key = key_of(VIEW_VERSION, solid.sha256, solid.vertices_mm.tobytes(), solid.faces.tobytes(), down)
    return kept("layer-view", key, LayerView, lambda: _viewed(solid, down))


def views_of(solids: Mapping[str, Solid], downs: Mapping[str, Vec3]) -> dict[str, LayerView | None]:
    """Return the layer view of every solid in its pose, by name."""
    return {name: layer_view(solid, downs[name]) for name, solid in solids.items() if name in downs}


def _viewed(solid: Solid, down: Vec3) -> LayerView:
    """Open sections at even heights by every width."""
    body = posed(solid, down).manifold
    assert body is not None
    low, high = body.bounding_box()[2], body.bounding_box()[5]
    heights = low + (np.arange(SECTIONS_N) + 0.5) / SECTIONS_N * (high - low)
    lost, whole = np.zeros((SECTIONS_N, len(WIDTHS_MM))), 0.0
    for row, height in enumerate(heights):
        section = body.slice(float(height)).simplify(FINE_MM)
        whole += section.area()
        for column in reversed(range(len(WIDTHS_MM))):
            lost[row, column] = _lost_mm2(section, WIDTHS_MM[column])
            if not lost[row, column]:
                break  # what a wide line reaches, a narrower one reaches too
    return LayerView(
        widths_mm=np.array(WIDTHS_MM),
        share=lost.sum(axis=0) / max(whole, 1e-12),
        height_mm=heights[lost.argmax(axis=0)] - low,
    )


def _lost_mm2(section: CrossSection, width: float) -> float:
    """Return the area of a section that its opening by a width loses, corners left out."""
    if section.is_empty():
        return 0.0
    shrunk = section.offset(-width / 2, JoinType.Round, 2.0, SEGMENTS)
    missed = section - shrunk.offset(width / 2 * 1.002, JoinType.Round, 2.0, SEGMENTS)
    areas = [piece.area() for piece in missed.decompose()]
    return float(sum(area for area in areas if area > CORNER * width**2))

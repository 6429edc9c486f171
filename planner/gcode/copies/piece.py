"""A piece: the lines of one copy, layer by layer, and the planned part's exact sections at any height."""

from __future__ import annotations

from dataclasses import dataclass, field

import manifold3d
import numpy as np
from numpy.typing import NDArray

from planner.gcode.matching.match import Pose
from planner.gcode.strokes import Strokes, bead_width_mm
from planner.job import Settings
from planner.layers import Section
from planner.mesh import Solid

Floats = NDArray[np.float64]

ROUNDING_MM = 0.005
MINOR_SHARE, MINOR_MM3 = 2e-4, 0.5
"""A height with less than this share of a piece's filament, and less than this volume, is a wipe, and no layer."""
WIDTHS = (0.4, 2.5)
"""A bead is taken to be no thinner and no wider than this, in planned line widths."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Piece:
    """One copy as it is printed: its lines, the tops of its layers, and by how much its beads are over-fed."""

    strokes: Strokes
    tops_mm: Floats
    """Of its layers, on the bed."""
    first_mm: float
    usual_mm: float
    """The usual step between its layers."""
    width_mm: float
    """Planned width of a line."""
    feed_share: float = 1.0
    """Filament over what fills the solid layers: beads are drawn as wide as they were meant."""

    def height_mm(self, k: int) -> float:
        """Return the height of a layer's beads; the first layer of a piece in mid-air counts as a usual one."""
        step = float(self.tops_mm[k] - self.tops_mm[k - 1]) if k else float(self.tops_mm[0])
        return step if step <= 1.5 * max(self.usual_mm, self.first_mm) else self.usual_mm

    def layer(self, k: int) -> Strokes:
        """Return the lines of a layer."""
        top = self.tops_mm[k]
        first, last = np.searchsorted(self.strokes.level_mm, (top - ROUNDING_MM, top + ROUNDING_MM))
        return self.strokes.where(slice(int(first), int(last)))

    def widths_mm(self, strokes: Strokes, height_mm: float) -> Floats:
        """Return how wide beads are, by the filament that they get."""
        length = np.maximum(strokes.length_mm, 1e-9)
        width = bead_width_mm(strokes.volume_mm3 / self.feed_share / length, height_mm)
        low, high = WIDTHS
        return np.clip(width, low * self.width_mm, high * self.width_mm)


def piece_of(strokes: Strokes, settings: Settings) -> Piece:
    """Return a piece from its lines."""
    ordered = strokes.where(np.argsort(strokes.level_mm, kind="stable"))
    tops, index = np.unique(ordered.level_mm, return_inverse=True)
    volume = np.bincount(index, weights=ordered.volume_mm3)
    kept = tops[volume > min(MINOR_SHARE * float(volume.sum()), MINOR_MM3)]
    first = settings.first_layer_height_mm.value
    return Piece(
        strokes=ordered,
        tops_mm=kept,
        usual_mm=float(np.median(np.diff(kept))) if len(kept) > 1 else first,
        first_mm=first,
        width_mm=settings.line_width_mm.value,
    )


@dataclass(frozen=True, kw_only=True)
class Sections:
    """Exact sections of one part by height, each cut once."""

    body: manifold3d.Manifold
    kept: dict[float, Section] = field(default_factory=dict)
    outlines: dict[tuple[float, float, float], object] = field(default_factory=dict)
    """Points along the outlines of layers, made once by who needs them."""

    @classmethod
    def of(cls, solid: Solid) -> Sections:
        """Return the sections of a sound solid."""
        body = solid.manifold
        assert body is not None
        return cls(body=body)

    def at(self, z_mm: float) -> Section:
        """Return the section at a height."""
        key = round(z_mm, 4)
        if key not in self.kept:
            self.kept[key] = self.body.slice(key)
        return self.kept[key]


def part_heights_mm(piece: Piece, pose: Pose, k: int) -> tuple[float, float, float]:
    """Return bottom, middle and top of a layer in the part's frame, a hair inside the layer."""
    top = float(piece.tops_mm[k])
    low, high = (float(pose.part_z_mm(np.array(z))) for z in (top - piece.height_mm(k), top))
    hair = 0.02 * (high - low)
    return low + hair, (low + high) / 2.0, high - hair

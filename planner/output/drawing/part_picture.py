"""A picture of a solid, seen from a corner: every pixel a ray, shaded by its face, edges drawn as in a drawing."""

from __future__ import annotations

import base64
import io
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PIL import Image

from planner.cache import kept, key_of
from planner.finding import Vec3
from planner.mesh import Solid
from planner.survey import face_normals, first_hits

Floats = NDArray[np.float64]

VIEW = np.array([-0.62, 0.68, -0.39])
"""Direction of sight: from the front right, a little above."""
LIGHTS = ((np.array([0.35, -0.75, 0.56]), 0.62), (np.array([-0.8, -0.2, 0.55]), 0.25))
AMBIENT = 0.22
FINE = 2
"""Rays a pixel, each way."""
FAR = 1e5
"""Farther than any part; where a ray meets nothing."""
INK = 0.28
"""Brightness of an edge."""
VIEW_OF_PART_VERSION = 1
"""Raised whenever a picture, or where a place is in it, changes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartView:
    """A picture of a solid, and where a place of the solid is in it."""

    png: bytes
    right: Floats
    up: Floats
    middle_mm: tuple[float, float]
    px_per_mm: float
    width_px: int
    height_px: int

    def at_px(self, place_mm: Vec3) -> tuple[float, float]:
        """Return the pixel, from the top left, at which a place of the solid is seen or hidden."""
        place = np.asarray(place_mm)
        x = (float(place @ self.right) - self.middle_mm[0]) * self.px_per_mm + self.width_px / 2
        y = self.height_px / 2 - (float(place @ self.up) - self.middle_mm[1]) * self.px_per_mm
        return x, y


def part_view(
    solid: Solid, width_px: int = 300, height_px: int = 220, tint: tuple[float, float, float] = (0.86, 0.88, 0.88)
) -> PartView:
    """Return a solid on a transparent ground, fitted to the frame; kept by what the solid is."""
    facts = VIEW_OF_PART_VERSION, solid.vertices_mm, solid.faces, width_px, height_px, tint
    return kept("pictures", key_of(*facts), PartView, lambda: _seen(solid, width_px, height_px, tint))


def _seen(solid: Solid, width_px: int, height_px: int, tint: tuple[float, float, float]) -> PartView:
    """Cast the rays and return what they see."""
    w, h = width_px * FINE, height_px * FINE
    view = VIEW / np.linalg.norm(VIEW)
    right = np.cross(view, [0.0, 0.0, 1.0])
    right /= np.linalg.norm(right)
    up = np.cross(right, view)
    corners = solid.vertices_mm
    low = np.array([(corners @ right).min(), (corners @ up).min()])
    high = np.array([(corners @ right).max(), (corners @ up).max()])
    step = 1.06 * max((high[0] - low[0]) / w, (high[1] - low[1]) / h, 1e-9)
    middle = (low + high) / 2
    x = middle[0] + (np.arange(w) - (w - 1) / 2) * step
    y = middle[1] - (np.arange(h) - (h - 1) / 2) * step
    grid_x, grid_y = np.meshgrid(x, y)
    near = float((corners @ view).min()) - 10.0
    origins = grid_x.reshape(-1, 1) * right + grid_y.reshape(-1, 1) * up + near * view
    normals = face_normals(solid)
    hits = first_hits(solid, normals, origins, np.tile(view, (len(origins), 1)))
    depth = np.full(w * h, np.inf)
    facing = np.zeros((w * h, 3))
    depth[hits.ray] = hits.distance_mm
    facing[hits.ray] = normals[hits.face] * -np.sign(normals[hits.face] @ view)[:, None]
    return PartView(
        png=_png(_shaded(depth.reshape(h, w), facing.reshape(h, w, 3), step, tint)),
        right=right,
        up=up,
        middle_mm=(float(middle[0]), float(middle[1])),
        px_per_mm=1.0 / (step * FINE),
        width_px=width_px,
        height_px=height_px,
    )


def picture_png(
    solid: Solid, width_px: int = 300, height_px: int = 220, tint: tuple[float, float, float] = (0.86, 0.88, 0.88)
) -> bytes:
    """Return a PNG of a solid on a transparent ground, fitted to the frame."""
    return part_view(solid, width_px, height_px, tint).png


def picture_uri(solid: Solid, width_px: int = 300, height_px: int = 220) -> str:
    """Return the picture as a data URI, to stand inside a page."""
    return "data:image/png;base64," + base64.b64encode(picture_png(solid, width_px, height_px)).decode()


def _shaded(depth: Floats, facing: Floats, step: float, tint: tuple[float, float, float]) -> Floats:
    """Return colours and cover (h, w, 4): light by Lambert's cosine law, ink where depth or direction jumps."""
    hit = np.isfinite(depth)
    light = AMBIENT + sum(share * np.clip(facing @ (way / np.linalg.norm(way)), 0.0, 1.0) for way, share in LIGHTS)
    far = np.where(hit, depth, 10 * FAR)
    edge = np.zeros_like(hit)
    for axis in (0, 1):
        jump = np.abs(np.diff(far, axis=axis)) > 6.0 * step
        turn = np.einsum("ijk,ijk->ij", *(np.take(facing, range(i, facing.shape[axis] - 1 + i), axis) for i in (0, 1)))
        both = np.maximum(*(np.take(far, range(i, far.shape[axis] - 1 + i), axis) for i in (0, 1))) < FAR
        line = jump | ((turn < 0.85) & both)
        pad = [(0, 1), (0, 0)] if axis == 0 else [(0, 0), (0, 1)]
        edge |= np.pad(line, pad)
    light = np.where(edge, INK, light)
    cover = hit | edge
    return np.concatenate([np.clip(light[..., None] * np.array(tint), 0.0, 1.0), cover[..., None]], axis=2)


def _png(colours: Floats) -> bytes:
    """Return a PNG, averaged down to its final size."""
    h, w = colours.shape[0] // FINE, colours.shape[1] // FINE
    blocks = colours.reshape(h, FINE, w, FINE, 4)
    cover = blocks[..., 3:]
    total = np.maximum(cover.sum(axis=(1, 3)), 1e-9)
    mean = np.concatenate([(blocks[..., :3] * cover).sum(axis=(1, 3)) / total, cover.mean(axis=(1, 3))], axis=2)
    file = io.BytesIO()
    Image.fromarray(_levels(mean), "RGBA").save(file, "PNG", optimize=True)
    return file.getvalue()


def _levels(colours: Floats) -> NDArray[np.uint8]:
    """Return bytes with few levels of brightness, which pack well; cover keeps its own."""
    light = np.round(colours[..., :3] * 40.0) / 40.0
    return (np.concatenate([light, np.round(colours[..., 3:] * 8.0) / 8.0], axis=2) * 255).round().astype(np.uint8)

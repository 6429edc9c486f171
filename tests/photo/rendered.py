"""Rendered photos of the card with known truth, by OpenCV's own camera model and warping, not by ours."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from planner.photo import CELLS_N, HIGH_MM, MARK_MM, WIDE_MM, black_cells, marks

Floats = NDArray[np.float64]
PER_MM = 6.0
EDGE_MM = 12.0
SIZE_PX = (1600, 1200)
GROUND_GREY = 120
RIM_PX = 40


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shot:
    """A camera that is known: focal length and middle in pixels, k1 and k2, turn and shift as OpenCV takes them."""

    focal_px: float
    middle_px: tuple[float, float]
    bend: tuple[float, float]
    turn: Floats
    shift_mm: Floats
    size_px: tuple[int, int] = SIZE_PX

    @property
    def lens(self) -> Floats:
        """Return the matrix of the lens."""
        return np.array(
            [[self.focal_px, 0.0, self.middle_px[0]], [0.0, self.focal_px, self.middle_px[1]], [0.0, 0.0, 1.0]]
        )

    def seen_px(self, points_mm: Floats) -> Floats:
        """Return where points in the card's axes are seen."""
        bent = np.array([*self.bend, 0.0, 0.0])
        seen = cv2.projectPoints(points_mm, self.turn, self.shift_mm, self.lens, bent)[0]
        return np.asarray(seen, float).reshape(-1, 2)

    @property
    def eye_mm(self) -> Floats:
        """Return where the camera is, in the card's axes."""
        return np.asarray(-cv2.Rodrigues(self.turn)[0].T @ self.shift_mm, float)


def shot(
    rng: np.random.Generator,
    tilt_most_deg: float = 25.0,
    away_mm: float = 1000.0,
    size_px: tuple[int, int] = SIZE_PX,
) -> Shot:
    """Return a camera about a metre over the card, tilted any way, with a lens that bends lines a little."""
    wide, high = size_px
    off_px = 10.0 * wide / SIZE_PX[0]
    tilt, way, spin = np.radians(rng.uniform(0.0, tilt_most_deg)), rng.uniform(0, 2 * np.pi), rng.uniform(-np.pi, np.pi)
    lean = cv2.Rodrigues(tilt * np.array([np.cos(way), np.sin(way), 0.0]))[0]
    turn = lean @ cv2.Rodrigues(np.array([0.0, 0.0, spin]))[0]
    middle = np.array([WIDE_MM / 2, HIGH_MM / 2, 0.0])
    ahead = np.array([rng.uniform(-60, 60), rng.uniform(-60, 60), away_mm * rng.uniform(0.9, 1.15)])
    return Shot(
        focal_px=wide * rng.uniform(0.68, 1.0),
        middle_px=((wide - 1) / 2 + rng.normal(0, off_px), (high - 1) / 2 + rng.normal(0, off_px)),
        bend=(rng.uniform(-0.12, 0.12), rng.uniform(-0.03, 0.03)),
        turn=cv2.Rodrigues(turn)[0].ravel(),
        shift_mm=ahead - turn @ middle,
        size_px=size_px,
    )


def card_picture() -> NDArray[np.uint8]:
    """Return the card in grey, with a white edge."""
    rows, columns = (round((side + 2 * EDGE_MM) * PER_MM) for side in (HIGH_MM, WIDE_MM))
    drawn = np.full((rows, columns), 235, np.uint8)
    cell = MARK_MM / CELLS_N * PER_MM
    for mark in marks():
        black = np.kron(black_cells(mark.number), np.ones((round(cell), round(cell)), bool))
        top, left = round((mark.y_mm + EDGE_MM) * PER_MM), round((mark.x_mm + EDGE_MM) * PER_MM)
        drawn[top : top + len(black), left : left + len(black)][black] = 25
    return drawn


def photo(one: Shot, rng: np.random.Generator, noise: float = 3.0) -> NDArray[np.uint8]:
    """Return the photo that a camera takes of the card on grey ground, a little blurred and with noise."""
    wide, high = one.size_px
    edge = np.array([[x, y, 0.0] for x in (-EDGE_MM, WIDE_MM + EDGE_MM) for y in (-EDGE_MM, HIGH_MM + EDGE_MM)])
    rim = one.seen_px(edge)  # beyond it the ground alone is drawn
    left, top = np.clip(rim.min(axis=0) - RIM_PX, 0, (wide - 1, high - 1)).astype(int)
    right, low = np.clip(rim.max(axis=0) + RIM_PX, (left + 1, top + 1), (wide, high)).astype(int)
    columns, rows = np.meshgrid(np.arange(left, right), np.arange(top, low))
    pixels = np.stack([columns, rows], -1).reshape(-1, 1, 2).astype(np.float32)
    bent = np.array([*one.bend, 0.0, 0.0])
    flat = cv2.undistortPoints(pixels, one.lens, bent).reshape(-1, 2).astype(float)
    turn = cv2.Rodrigues(one.turn)[0]
    ways = np.column_stack([flat, np.ones(len(flat))]) @ turn
    eye = one.eye_mm
    places = eye + (-eye[2] / ways[:, 2])[:, None] * ways
    at = ((places[:, :2] + EDGE_MM) * PER_MM - 0.5).reshape(*columns.shape, 2).astype(np.float32)
    drawn = cv2.GaussianBlur(card_picture(), (0, 0), 2.0)
    ground = (cv2.BORDER_CONSTANT, GROUND_GREY)
    part = cv2.remap(drawn, at[..., 0], at[..., 1], cv2.INTER_LINEAR, borderMode=ground[0], borderValue=ground[1])
    seen = np.full((high, wide), GROUND_GREY, np.float32)
    seen[top:low, left:right] = part + rng.normal(0, noise, part.shape)
    noisy: NDArray[np.uint8] = np.clip(seen, 0, 255).astype(np.uint8)
    return noisy


def cylinder_edges_px(
    one: Shot, width_mm: float, above_mm: float, away_mm: float, along: Floats, skew_deg: float = 0.0
) -> Floats:
    """Return where both edges of a cylinder are seen, at the place of its middle, beside the card.

    The edges are where planes through the camera touch it: tangents from a point to a circle (textbook).
    ``skew_deg``: how far the line between both is off square.
    """
    middle = np.array([WIDE_MM / 2 + away_mm * -along[1], HIGH_MM / 2 + away_mm * along[0], -above_mm])
    across = np.array([-along[1], along[0], 0.0])
    down = np.array([0.0, 0.0, 1.0])
    eye = one.eye_mm - middle
    u, v = eye @ across, eye @ down
    far, radius = np.hypot(u, v), width_mm / 2
    to_eye, off = np.arctan2(v, u), np.arccos(radius / far)
    touch = [middle + radius * (np.cos(to_eye + s * off) * across + np.sin(to_eye + s * off) * down) for s in (-1, 1)]
    slipped = 0.5 * width_mm * np.tan(np.radians(skew_deg)) * along
    return one.seen_px(np.array(touch) + np.outer([-1.0, 1.0], slipped))

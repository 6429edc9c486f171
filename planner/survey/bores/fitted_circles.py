"""Circles and axes fitted to corners: the outermost corners of a bore lie on its circle, others on its flats."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError, cKDTree

from planner.survey.bores.around_axis import across, circle

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

TRIALS, NEAR_N, SCORED_MOST = 64, 24, 1000
"""Circles through three neighbouring corners that are tried, among how many neighbours, and on how many corners."""
ON_LEAST = 4
"""Fewer corners than this are on a circle by chance."""
CHORD_LEAST = 0.5
"""In radii, how far the corners of an arc reach, as 29 degrees do: of a wider circle, a straight row lies on it too."""
WIDEST = 1.03
"""The widest flat from corner to corner in radii (a chord of 62 degrees); wider is an opening."""
CUT_LEAST = 0.85
"""The flat of a hexagon comes no nearer to its axis, in radii, than 0.87."""
ON_SHARE = 0.5
"""So many of the outermost corners lie on the circle; the others are ends of arcs that are cut off on a flat."""
HULLS, STEPS, LEAN_STEP = 2, 12, 0.1


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Round:
    """A circle across an axis, and the outline of flats from corner to corner of it.

    ``centre`` is a point of the axis; ``outline`` (k, 2) are corners about it, seen along the axis and sorted by
    ``angle`` (k,); ``slack_mm`` is how far a corner may lie off.
    """

    axis: Floats
    centre: Floats
    radius_mm: float
    slack_mm: float
    outline: Floats
    angle: Floats

    def holds(self, points: Floats) -> NDArray[np.bool_]:
        """Return which points (…, 3) lie on the circle, or on a flat between two of its corners."""
        flat = (points - self.centre) @ across(self.axis).T
        out = _long(flat) - self.radius_mm
        after = np.searchsorted(self.angle, np.arctan2(flat[..., 1], flat[..., 0])) % len(self.angle)
        one, other = self.outline[after - 1], self.outline[after]
        way = other - one
        length = _long(way)
        away = flat - one
        off = np.abs(away[..., 0] * way[..., 1] - away[..., 1] * way[..., 0]) / np.maximum(length, 1e-12)
        on_flat = (off < self.slack_mm) & (length < WIDEST * self.radius_mm)
        at_corner = np.minimum(_long(away), _long(flat - other)) < self.slack_mm
        held: NDArray[np.bool_] = (np.abs(out) < self.slack_mm) | on_flat | at_corner
        return held


def _long(flat: Floats) -> Floats:
    """Return how long plane vectors (…, 2) are; numpy is slow over an axis of two."""
    long: Floats = np.sqrt(flat[..., 0] ** 2 + flat[..., 1] ** 2)
    return long


def round_of(flat: Floats, axis: Floats, centre: Floats, radius_mm: float, slack_mm: float) -> Round:
    """Return a round from its corners in the plane across its axis."""
    angle = np.arctan2(*(flat - centre).T[::-1])
    order = np.argsort(angle)
    return Round(
        axis=axis,
        centre=centre @ across(axis),
        radius_mm=radius_mm,
        slack_mm=slack_mm,
        outline=(flat - centre)[order],
        angle=angle[order],
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """How far corners may lie off their circle: of a mesh as drawn next to nothing, of a coarse or noisy one more."""

    least_mm: float
    share: float

    def mm(self, radius: float) -> float:
        """Return it for a radius."""
        return max(self.least_mm, self.share * radius)


EXACT, ROUNDED, COARSE = (
    Slack(least_mm=3e-4, share=2e-5),
    Slack(least_mm=0.002, share=2e-4),
    Slack(least_mm=0.01, share=0.004),
)


def noisy(noise_mm: float) -> Slack:
    """Return the slack of corners that are off by a standard deviation."""
    return Slack(least_mm=max(COARSE.least_mm, 3.5 * noise_mm), share=COARSE.share)


def fitted(points: Floats, axis: Floats, slack: Slack, *, hull: bool = True) -> Round | None:
    """Return the round that the outermost of some points (n, 3) lie on, its axis turned to suit them; else None."""
    for _ in range(HULLS):
        frame = across(axis)
        flat = points @ frame.T
        outer = _outer(flat) if hull else np.arange(len(flat))
        found = _agreed(flat[outer], slack if slack.least_mm > COARSE.least_mm else COARSE)
        if found is None:
            return None
        centre, radius, near = found
        some = points[outer[near]]
        axis, middle, radius = _settled(some, axis, centre @ frame, radius, 0.1 * slack.mm(radius))
    off = np.abs(_out_mm(some, axis, middle) - radius)
    on = off < slack.mm(radius)
    if on.sum() < max(ON_LEAST, ON_SHARE * len(some)):
        return None
    axis, middle, radius = _settled(some[on], axis, middle, radius, slack.mm(radius))
    frame, within = across(axis), max(slack.mm(radius), ROUNDED.mm(radius))
    corners = _with_cut_ends(points[outer] @ frame.T, middle @ frame.T, radius, within)
    return round_of(corners, axis, middle @ frame.T, radius, within) if len(corners) >= ON_LEAST else None


def _out_mm(points: Floats, axis: Floats, middle: Floats) -> Floats:
    """Return how far points lie from an axis."""
    away = points - middle
    out: Floats = np.linalg.norm(away - (away @ axis)[:, None] * axis, axis=1)
    return out


def _settled(
    points: Floats, axis: Floats, middle: Floats, radius: float, floor_mm: float
) -> tuple[Floats, Floats, float]:
    """Return axis, a point of it and radius of the cylinder that most of some points lie on.

    Notes
    -----
    Steps of Gauss and Newton: moving the centre shifts a corner's distance by the cosine of its direction,
    leaning the axis does so in proportion to how far along it the corner lies. Each corner weighs as the
    inverse of how far off it is, so that the exact ones decide (iteratively reweighted, Schlossmacher 1973).
    """
    middle = middle + float(((points - middle) @ axis).mean()) * axis
    for _ in range(STEPS):
        frame = across(axis)
        away = points - middle
        flat = away @ frame.T
        out = _long(flat)
        off = out - radius
        way = flat / np.maximum(out, 1e-12)[:, None]
        matrix = np.column_stack([way, np.ones(len(way)), way * (away @ axis)[:, None]])
        weight = 1.0 / np.maximum(np.abs(off), floor_mm)
        weight = np.sqrt(weight / weight.max())
        step = np.linalg.lstsq(matrix * weight[:, None], off * weight, rcond=1e-8)[0]
        if not np.isfinite(step).all() or np.abs(step[3:]).max() > LEAN_STEP:
            break  # too shallow, or too short an arc, to say which way it leans
        middle, radius = middle + step[:2] @ frame, radius + float(step[2])
        axis = axis + step[3:] @ frame
        axis = axis / np.linalg.norm(axis)
        if float(np.abs(step).max()) < 1e-9 * radius:
            break
    return axis, middle, radius


def _with_cut_ends(flat: Floats, centre: Floats, radius: float, slack_mm: float) -> Floats:
    """Return the corners on a circle, and those inside it next to one: there a flat is cut off."""
    out = _long(flat - centre)
    order = np.argsort(np.arctan2(*(flat - centre).T[::-1]))
    flat, out = flat[order], out[order]
    on = np.abs(out - radius) < slack_mm
    cut = (out < radius) & (out > CUT_LEAST * radius) & (np.roll(on, 1) | np.roll(on, -1))
    corners: Floats = flat[on | cut]
    return corners


def _outer(flat: Floats) -> Ints:
    """Return the corners of the convex hull, the only ones that must lie on the circle itself."""
    try:
        corners: Ints = ConvexHull(flat).vertices.astype(np.int64)
    except (QhullError, ValueError):  # all in one line
        corners = np.arange(len(flat))
    return corners


def _agreed(flat: Floats, slack: Slack) -> tuple[Floats, float, NDArray[np.bool_]] | None:
    """Return the circle that most of some points share, and which; the ends of an arc may be cut off on a flat."""
    if len(flat) < ON_LEAST:
        return None
    centre, radius = circle(flat)
    loose = 2.0 * slack.mm(radius)
    on = np.abs(_long(flat - centre) - radius) < loose
    if not on.all():
        tried = circle_among(flat, slack, seed=len(flat))
        if tried is None or tried[2].mean() < 0.5:
            return None
        on = tried[2]
        centre, radius = circle(flat[on])
    return (centre, radius, on) if on.sum() >= ON_LEAST else None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Neighbours:
    """Different ones among plane points (n, 2), and who lies beside whom: made once for all circles among them."""

    points: Floats
    tree: cKDTree


def neighbours_of(flat: Floats) -> Neighbours:
    """Return the different ones among some plane points, to 0.1 micrometres, in order."""
    # a plane point as one complex number: sorted alike, across first, five times as fast as rows of two
    _, first = np.unique(np.ascontiguousarray(np.round(flat, 4)).view(np.complex128)[:, 0], return_index=True)
    return Neighbours(points=flat[first], tree=cKDTree(flat[first]))


def circle_among(
    flat: Floats, slack: Slack, *, seed: int, near: Neighbours | None = None
) -> tuple[Floats, float, NDArray[np.bool_]] | None:
    """Return the circle through three of some plane points that most others lie on, and which do.

    The three are neighbours where ``near`` tells them. Random sample consensus (Fischler and Bolles 1981), with
    the same samples every time.
    """
    rng = np.random.default_rng(seed)
    if near is not None:
        flat_one = near.points
        if len(flat_one) < ON_LEAST:
            return None
        start = rng.integers(0, len(flat_one), TRIALS)
        k = min(NEAR_N, len(flat_one))
        neighbours = near.tree.query(flat_one[start], k=k)[1]
        picks = rng.random((TRIALS, k)).argsort(axis=1)[:, :3]
        three = flat_one[np.take_along_axis(neighbours, picks, axis=1)]
    else:
        flat_one = flat
        three = flat[rng.random((TRIALS, len(flat))).argsort(axis=1)[:, :3]]
    centres, radii = _through(three)
    scored = (
        flat_one if len(flat_one) <= SCORED_MOST else flat_one[rng.choice(len(flat_one), SCORED_MOST, replace=False)]
    )
    # Across and along by themselves: numpy is slow over a last axis of two.
    x, y = np.ascontiguousarray(scored.T)
    off, down = x - centres[:, :1], y - centres[:, 1:]
    off *= off
    down *= down
    off += down
    np.sqrt(off, out=off)
    off -= radii[:, None]
    np.abs(off, out=off)
    within = np.maximum(slack.least_mm, slack.share * radii)
    near_it = off < within[:, None]
    count = np.count_nonzero(near_it, axis=1)
    count[~np.isfinite(radii)] = 0
    # The first of those with most corners on it that is an arc, not a row: few are asked.
    ranked = (int(n) for n in np.argsort(-count, kind="stable") if count[n] >= ON_LEAST)
    best = next((n for n in ranked if _chord_mm(x[near_it[n]], y[near_it[n]]) >= CHORD_LEAST * radii[n]), None)
    if best is None:
        return None
    on = np.abs(_long(flat - centres[best]) - radii[best]) < within[best]
    return centres[best], float(radii[best]), on


def _chord_mm(x: Floats, y: Floats) -> float:
    """Return how far some plane points reach, from corner to corner of the box round them."""
    wide, deep = float(x.max() - x.min()), float(y.max() - y.min())
    return math.sqrt(wide**2 + deep**2)


def _through(three: Floats) -> tuple[Floats, Floats]:
    """Return centres (t, 2) and radii (t,) of the circles through three points each, (t, 3, 2); infinite for a line."""
    a, b = three[:, 1] - three[:, 0], three[:, 2] - three[:, 0]
    twice = 2.0 * (a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
    aa, bb = (a**2).sum(axis=1), (b**2).sum(axis=1)
    with np.errstate(all="ignore"):
        away = np.column_stack([b[:, 1] * aa - a[:, 1] * bb, a[:, 0] * bb - b[:, 0] * aa]) / twice[:, None]
        radius = np.linalg.norm(away, axis=1)
    straight = ~np.isfinite(radius) | (np.abs(twice) < 1e-9 * (aa + bb))
    return np.where(straight[:, None], 0.0, three[:, 0] + away), np.where(straight, np.inf, radius)

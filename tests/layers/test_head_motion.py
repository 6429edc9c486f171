"""Motion: closed forms, an independent integration, and bounds that no machine beats."""

from __future__ import annotations

import csv
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.layers.head_motion import corner_speed_mm_s, move_times_s
from tests.shapes import DATA

ACCELERATION = 1000.0


def _total(points: list[tuple[float, float]], v: float, a: float, d: float = 0.02, corner: float = 0.0) -> float:
    """Return the time of a path with one speed limit."""
    path = np.array(points, dtype=float)
    return float(move_times_s(path, np.full(len(path) - 1, v), a, d, corner)[0].sum())


@pytest.mark.parametrize(("length", "seconds"), [(100.0, 1.726667), (1.0, 0.063246)])
def test_a_straight_move_from_rest_to_rest(length: float, seconds: float) -> None:
    """d/v + v/a where full speed is reached, 2 sqrt(d/a) where not (textbook kinematics; values by time-stepping)."""
    assert _total([(0, 0), (length, 0)], 60.0, ACCELERATION) == pytest.approx(seconds, rel=1e-5)


@pytest.mark.parametrize(("angle", "speed"), [(60, 4.472), (90, 6.949), (120, 11.370), (150, 23.811)])
def test_corner_speeds_are_those_of_the_inscribed_arc(angle: float, speed: float) -> None:
    """v = sqrt(a R), R = d sin(t/2)/(1 - sin(t/2)), d 0.02 mm, a 1000 mm/s2 (geometry; published check values)."""
    assert corner_speed_mm_s(math.radians(angle), 0.02, 1000.0) == pytest.approx(speed, abs=1e-3)


def test_points_on_a_line_cost_nothing() -> None:
    """A straight line cut into pieces takes as long as in one."""
    pieces = [(x, 0.0) for x in np.linspace(0, 100, 51)]

    assert _total(pieces, 60.0, ACCELERATION) == pytest.approx(_total([(0, 0), (100, 0)], 60.0, ACCELERATION), rel=1e-9)


def test_a_square_by_closed_form() -> None:
    """Four sides: two from or to rest, all corners at the corner speed (trapezoids by hand)."""
    side, v, a, c = 40.0, 60.0, 1000.0, corner_speed_mm_s(math.pi / 2, 0.02, 1000.0)

    def one(u: float, w: float) -> float:
        ramps = (v * v - u * u) / (2 * a) + (v * v - w * w) / (2 * a)
        return (v - u) / a + (v - w) / a + (side - ramps) / v

    meant = one(0, c) + one(c, c) + one(c, c) + one(c, 0)
    path = [(0, 0), (side, 0), (side, side), (0, side), (0, 0)]

    assert _total(path, v, a) == pytest.approx(meant, rel=1e-6)


def test_a_circle_runs_at_the_speed_its_curve_allows() -> None:
    """A finely cut circle of radius R runs near sqrt(a R') of its inscribed corners, never above the limit."""
    n, radius = 720, 10.0
    angle = np.linspace(0, 2 * np.pi, n + 1)
    path = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
    times, peaks = move_times_s(path, np.full(n, 60.0), ACCELERATION, 0.02, 0.0)
    turn = math.pi - 2 * math.pi / n
    allowed = min(60.0, corner_speed_mm_s(turn, 0.02, ACCELERATION))
    length = 2 * n * radius * math.sin(math.pi / n)

    assert peaks.max() <= 60.0 + 1e-9
    assert times.sum() == pytest.approx(length / allowed + allowed / ACCELERATION, rel=1e-3)


def _integrated(path: np.ndarray, limits: np.ndarray, a: float, corners: np.ndarray) -> float:
    """Return the time of a path by an independent method: the speed limit along it on a fine grid of length.

    Every place has a highest v2 from each corner and each move's limit, v2 <= u2 + 2 a s; time is the sum of ds/v.
    """
    length = np.linalg.norm(np.diff(path, axis=0), axis=1)
    place = np.concatenate([[0.0], np.cumsum(length)])
    s = np.linspace(0, place[-1], 400_001)
    middle = (s[1:] + s[:-1]) / 2
    move = np.clip(np.searchsorted(place, middle) - 1, 0, len(length) - 1)
    square = limits[move] ** 2
    for at, speed in zip(place, corners, strict=True):
        square = np.minimum(square, speed**2 + 2 * a * np.abs(middle - at))
    for k in range(len(length)):  # a slower move is entered at its own limit
        for at in (place[k], place[k + 1]):
            outside = (middle < place[k]) | (middle > place[k + 1])
            square = np.where(outside, np.minimum(square, limits[k] ** 2 + 2 * a * np.abs(middle - at)), square)
    return float((np.diff(s) / np.sqrt(square)).sum())


@settings(max_examples=15, deadline=None)
@given(seed=st.integers(0, 100_000))
def test_random_paths_agree_with_an_independent_integration(seed: int) -> None:
    """Within 0.5 % of integrating the highest possible speed along the path."""
    rng = np.random.default_rng(seed)
    path = np.cumsum(rng.uniform(-20, 20, (8, 2)), axis=0)
    limits = rng.uniform(20, 120, 7)
    a = float(rng.uniform(300, 4000))
    steps = np.diff(path, axis=0)
    units = steps / np.linalg.norm(steps, axis=1, keepdims=True)
    inside = np.pi - np.arccos(np.clip((units[:-1] * units[1:]).sum(axis=1), -1, 1))
    corners = np.array([0.0, *(corner_speed_mm_s(t, 0.02, a) for t in inside), 0.0])

    assert move_times_s(path, limits, a, 0.02, 0.0)[0].sum() == pytest.approx(
        _integrated(path, limits, a, corners), rel=5e-3
    )


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 100_000), v=st.floats(5, 200))
def test_no_path_is_faster_than_its_length_at_full_speed(seed: int, v: float) -> None:
    """T >= length / v, and no move is faster than its limit."""
    path = np.random.default_rng(seed).uniform(-50, 50, (12, 2))
    times, peaks = move_times_s(path, np.full(11, v), ACCELERATION, 0.02, 0.0)

    assert times.sum() >= np.linalg.norm(np.diff(path, axis=0), axis=1).sum() / v
    assert (peaks <= v + 1e-9).all()


def test_a_fixed_corner_speed_is_kept_too() -> None:
    """With a corner speed instead of a deviation, a right angle is passed at it, a straight line freely."""
    bent = _total([(0, 0), (30, 0), (30, 30)], 60.0, ACCELERATION, d=0.0, corner=8.0)
    straight = _total([(0, 0), (30, 0), (60, 0)], 60.0, ACCELERATION, d=0.0, corner=8.0)

    assert straight < bent
    assert straight == pytest.approx(_total([(0, 0), (60, 0)], 60.0, ACCELERATION), rel=1e-9)


def test_the_published_closed_forms_are_reproduced() -> None:
    """Bead areas, flow and speed cap equal the table of closed-form checks (double precision, independent code)."""
    from planner.layers import bead_area_mm2

    rows = (DATA / "references" / "closed_form_checks.csv").read_text(encoding="utf-8").splitlines()
    table = {row["id"]: float(row["value"]) for row in csv.DictReader(r for r in rows if not r.startswith("#"))}

    assert bead_area_mm2(0.45, 0.2) == pytest.approx(table["bead_area_w0.45_h0.2"], abs=1e-6)
    assert bead_area_mm2(0.48, 0.3) == pytest.approx(table["bead_area_w0.48_h0.3"], abs=1e-6)
    assert 60 * bead_area_mm2(0.45, 0.2) == pytest.approx(table["flow_60mms_0.45x0.2"], abs=1e-5)
    assert 11 / bead_area_mm2(0.45, 0.2) == pytest.approx(table["speed_cap_11mm3s_0.45x0.2"], abs=1e-3)

"""The Heron's jaws in plain geometry: sections by arithmetic, outlines turned flat, cords as chords.

Shares no code with the mechanism's room: meshes are read as bytes, places and points from the job's text, sections are
cut triangle by triangle, and outlines are compared by shapely (GEOS). ``python -m tests.mechanism.heron_independent``
writes the table that the tests compare with.
"""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry.base import BaseGeometry

HERON = Path(__file__).parents[2] / "sample_parts" / "heron"
TABLE = Path(__file__).parents[1] / "data" / "mechanism" / "heron_moves.toml"
SIZES = (0.6, 0.9, 1.065, 1.4, 1.8)
LEVELS_MM = (-5.5, -3.5, -1.4, 0.05, 1.4, 3.5, 5.5)
"""Sections through the jaws, from the middle of their slot; between them nothing changes but by chamfers."""
STANDING = ("deck", "cap", "cap#2", "guide", "guide#2")
CLEAR_MM = 0.1
"""The least running gap of the limits' profile."""
COARSE_DEG, FINE_DEG = 0.5, 0.005
Sections = Mapping[float, BaseGeometry]


def triangles_of(path: Path) -> np.ndarray:
    """Return the corners of a binary STL's triangles, (n, 3, 3)."""
    raw = path.read_bytes()
    n = int.from_bytes(raw[80:84], "little")
    rows = np.frombuffer(
        raw, dtype=np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("_", "<u2")]), offset=84
    )
    return rows["corners"][:n].astype(float)


def turned(points: np.ndarray, axis: Sequence[float], deg: float) -> np.ndarray:
    """Return points turned about an axis through the origin, by quaternion: p + 2 w (v x p) + 2 v x (v x p)."""
    half = math.radians(deg) / 2
    v = np.asarray(axis, float) / np.linalg.norm(axis) * math.sin(half)
    once = np.cross(v, points)
    moved: np.ndarray = points + 2 * math.cos(half) * once + 2 * np.cross(v, once)
    return moved


def section(triangles: np.ndarray, z: float) -> BaseGeometry:
    """Return the area that a closed mesh covers at a height: crossed edges, polygonized, inside by counting crossings."""
    above = triangles[:, :, 2] > z
    cut = triangles[above.any(axis=1) & ~above.all(axis=1)]
    lines = []
    for corners in cut:
        ends = []
        for a, b in ((0, 1), (1, 2), (2, 0)):
            p, q = corners[a], corners[b]
            if (p[2] > z) != (q[2] > z):
                p, q = (p, q) if tuple(p) < tuple(q) else (q, p)  # so that neighbours round alike
                ends.append(np.round(p[:2] + (q[:2] - p[:2]) * (z - p[2]) / (q[2] - p[2]), 5))
        if not np.array_equal(*ends):
            lines.append(ends)
    if not lines:
        return shapely.Polygon()
    edges = np.array(lines)
    faces = shapely.get_parts(shapely.polygonize([shapely.LineString(line) for line in lines]))
    return shapely.union_all([face for face in faces if _inside(edges, face.representative_point())])


def _inside(edges: np.ndarray, point: Any) -> bool:
    """Return whether a point lies inside edges (n, 2, 2): an odd number of them cross its way to the right."""
    (ax, ay), (bx, by) = edges[:, 0].T, edges[:, 1].T
    crosses = (ay > point.y) != (by > point.y)
    x = ax + (point.y - ay) * (bx - ax) / np.where(crosses, by - ay, 1.0)
    return bool((crosses & (x > point.x)).sum() % 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Jaws:
    """Sections of both jaws with their pads and of what stands, the posts, and the cord's two ends, at drawn size."""

    moving: tuple[Sections, Sections]
    standing: Sections
    posts: tuple[tuple[float, float], tuple[float, float]]
    hook: np.ndarray
    mouth: np.ndarray
    grip_mm: float

    def at(self, side: int, deg: float) -> Sections:
        """Return one jaw's sections, opened by an angle from the drawn place."""
        sense = 1.0 if side == 0 else -1.0
        return {z: affinity.rotate(one, sense * deg, origin=self.posts[side]) for z, one in self.moving[side].items()}

    def near(self, deg: float, other_deg: float) -> float:
        """Return the least distance of the first jaw from all else, within the sections; 0 where they meet."""
        one, other = self.at(0, deg), self.at(1, other_deg)
        return float(min(min(one[z].distance(other[z]), one[z].distance(self.standing[z])) for z in LEVELS_MM))

    def length_mm(self, deg: float, s: float) -> float:
        """Return the way of the cord from the channel's mouth to the hook: all else of it stays as it is."""
        (x, y), (px, py) = self.hook[:2], self.posts[0]
        angle = math.radians(deg)
        turned_x = px + (x - px) * math.cos(angle) - (y - py) * math.sin(angle)
        turned_y = py + (x - px) * math.sin(angle) + (y - py) * math.cos(angle)
        return s * float(np.linalg.norm(np.array([turned_x, turned_y, self.hook[2]]) - self.mouth))

    def arm_mm(self, deg: float, s: float) -> float:
        """Return how much cord a radian takes: the slope of a parabola through three lengths half a degree apart."""
        return (self.length_mm(deg + 0.5, s) - self.length_mm(deg - 0.5, s)) / math.radians(1.0)

    def lever(self, deg: float) -> float:
        """Return cord force over grip force, without friction: arm of the grip over arm of the cord."""
        return self.grip_mm / self.arm_mm(deg, 1.0)


@cache
def jaws() -> Jaws:
    """Return the Heron's jaws as the job places them."""
    job = tomllib.loads((HERON / "job.toml").read_text(encoding="utf-8"))
    places = {place["part"]: place for place in job["place"]}
    files = {part["name"]: HERON / part["mesh"] for part in job["part"]}
    points = {(point["part"], point["name"]): point["at_mm"] for point in job["point"]}
    pull = next(cord for cord in job["cord"] if cord["name"] == "pull cord")
    slot_z = places["jaw"]["at_mm"][2]

    def stood(copy: str, corners: np.ndarray) -> np.ndarray:
        axis_deg = places[copy].get("turn", [0, 0, 1, 0])
        found: np.ndarray = turned(corners, axis_deg[:3], axis_deg[3]) + np.array(places[copy]["at_mm"])
        return found

    def cut(copies: Sequence[str]) -> Sections:
        bodies = [stood(copy, triangles_of(files[copy.split("#")[0]])) for copy in copies]
        return {z: shapely.union_all([section(body, slot_z + z) for body in bodies]) for z in LEVELS_MM}

    deck = stood("deck", triangles_of(files["deck"]))
    post_x, post_y, _ = places["jaw"]["at_mm"]
    back = section(deck, slot_z).intersection(shapely.box(0.0, 8.0, post_x, 9.0))
    mouth = np.array([back.bounds[2], post_y - 0.5, places["deck"]["at_mm"][2]])  # the channel lies 8.5 off the middle
    return Jaws(
        moving=(cut(("jaw", "pad")), cut(("jaw#2", "pad#2"))),
        standing=cut(STANDING),
        posts=((post_x, post_y), (post_x, -post_y)),
        hook=stood("jaw", np.array(points["jaw", "hook"])),
        mouth=mouth,
        grip_mm=math.hypot(*pull["grip_at_mm"][:2]),
    )


def first_met(near: Callable[[float], float], way: int, clear_mm: float, most_deg: float = 60.0) -> float:
    """Return the first angle, up or down from 0, at which the distance is no longer more than a clearance."""
    free = 0.0
    while near(free + way * COARSE_DEG) > clear_mm:
        free += way * COARSE_DEG
        if abs(free) > most_deg:
            return math.inf * way
    met = free + way * COARSE_DEG
    while abs(met - free) > FINE_DEG:
        middle = (free + met) / 2
        free, met = (middle, met) if near(middle) > clear_mm else (free, middle)
    return free


def answers(clear_mm: float, needs: tuple[float, float] = (-2.5, 25.0)) -> list[dict[str, float]]:
    """Return, at five sizes, range of one jaw alone, bare and with a clearance; of both; travel, arms and lever."""
    model = jaws()
    bare = {"bare_low_deg": _alone(-1, 0.0), "bare_high_deg": _alone(1, 0.0)}
    bare["both_low_deg"] = first_met(lambda deg: model.near(deg, deg), -1, 0.0)
    found = []
    for s in SIZES:
        row = {"size": s, **bare}
        row |= {"clear_low_deg": _alone(-1, clear_mm / s), "clear_high_deg": _alone(1, clear_mm / s)}
        row["travel_mm"] = model.length_mm(needs[1], s) - model.length_mm(needs[0], s)
        row["arm_low_mm"], row["arm_high_mm"] = (model.arm_mm(deg, s) for deg in needs)
        row["lever_low"], row["lever_high"] = (model.lever(deg) for deg in needs)
        found.append(row)
    return found


def _alone(way: int, clear_mm: float) -> float:
    """Return where the first jaw ends while the other stays as drawn."""
    return first_met(lambda deg: jaws().near(deg, 0.0), way, clear_mm)


def text(clear_mm: float) -> str:
    """Return the table as TOML."""
    lines = [
        "# The Heron's jaws by tests/mechanism/heron_independent.py: angles from the drawn place, opening positive."
    ]
    lines.append(f"clear_mm = {clear_mm}")
    for row in answers(clear_mm):
        lines += ["", "[[size]]", *(f"{key} = {value:.3f}" for key, value in row.items())]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    TABLE.parent.mkdir(parents=True, exist_ok=True)
    TABLE.write_text(text(CLEAR_MM), encoding="utf-8")

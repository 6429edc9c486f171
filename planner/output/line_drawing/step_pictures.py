"""One drawing a step of the assembly: what the step adds is dark, what is there already is light."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from planner.cache import kept, key_of
from planner.job import part_of
from planner.output.drawing.part_picture import VIEW
from planner.output.drawing.shapes import Drawing, Shape
from planner.output.line_drawing.copies_standing import Standing, rest_of
from planner.output.line_drawing.edge_lines import MeshEdges
from planner.output.line_drawing.hardware_solids import PlacedAxis, hardware_axes, hardware_body, headed
from planner.output.line_drawing.scene import Body, DrawnFrame, Scene
from planner.output.line_drawing.view_grid import Floats, looking
from planner.output.line_drawing.ways_in import WaysIn
from planner.plan import Plan

PICTURES_VERSION = 1
"""Raised whenever a drawing changes, so that kept ones are not trusted."""
WIDE_MM, HIGH_MM = 62.0, 44.0
LEAST_MM = 45.0
"""No step is drawn from nearer than so much of the device across the picture."""
SIDES = (VIEW, VIEW * [1, 1, -1], VIEW * [-1, -1, 1], VIEW * [-1, -1, -1])
"""Directions of sight: from the front right above and below, then from behind."""
SEEN_SHARE = 0.45
"""The first side that shows this much of what is new is taken."""
GRID_PX = 850
FINE_MM = 0.05
LIGHT, DARK, PALE_INK = 1.0, 0.55, 0.5
ARROW_MM, TIP_MM = 8.0, 2.2
"""An arrow's length and the length of its point, on paper."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a step needs to be drawn: its kind and name, its parts, those that hang together with it, and its words."""

    name: str
    parts: tuple[str, ...]
    there: frozenset[str]
    about: str


def step_pictures(plan: Plan, standing: Standing, steps: Sequence[Shown]) -> tuple[Drawing | None, ...]:
    """Return a drawing for each step; None for one whose parts have no known place."""
    if not standing.bodies:
        return tuple(None for _ in steps)
    axes = hardware_axes(plan, standing)
    cords = _cords(plan, standing)
    stands = [
        (
            copy,
            body.solid.vertices_mm.tobytes(),
            body.solid.faces.tobytes(),
            body.turn.tobytes(),
            body.shift_mm.tobytes(),
        )
        for copy, body in standing.bodies.items()
    ]
    pins = [
        (name, [(a.ends_mm[0].tobytes(), a.ends_mm[1].tobytes(), a.hardware) for a in at]) for name, at in axes.items()
    ]
    lines = [(name, line.tobytes()) for name, line in cords.items()]
    nuts = [(line.name, line.goes_with, line.kind) for line in plan.hardware]
    key = key_of(PICTURES_VERSION, stands, pins, lines, nuts, tuple(steps))
    return kept("pictures", key, tuple[Drawing | None, ...], lambda: _Steps(plan, standing, axes, cords).drawn(steps))


def _cords(plan: Plan, standing: Standing) -> dict[str, Floats]:
    """Return the line of every cord whose way is known, in the device as it is shown."""
    movement = plan.movement
    if movement is None:
        return {}
    lines = movement.lines_at(rest_of(plan, standing.factor), standing.factor)
    return {name: np.array([standing.shown(np.asarray(point)) for point in line]) for name, line in lines.items()}


class _Steps:
    """The scenes that steps are drawn from, one a side, made when one is looked from."""

    def __init__(
        self, plan: Plan, standing: Standing, axes: Mapping[str, Sequence[PlacedAxis]], cords: Mapping[str, Floats]
    ) -> None:
        self.standing, self.cords = standing, cords
        nutted = {line.goes_with for line in plan.hardware if line.kind == "nut"}
        there = []
        for body in standing.bodies.values():
            points = body.points_mm
            there.append((points.min(axis=0), points.max(axis=0), points[body.solid.faces]))
        self.pins: dict[str, list[tuple[str, PlacedAxis, bool]]] = {}
        self.bodies: dict[str, Body] = dict(standing.bodies)
        for name, places in axes.items():
            for index, place in enumerate(places):
                turned, free = headed(place, there)
                piece = f"{name} on axis {index}"
                self.bodies[piece] = hardware_body(turned, nut=name in nutted)
                self.pins.setdefault(name, []).append((piece, turned, free))
        self.ways = WaysIn(standing.bodies)
        self._scenes: dict[int, Scene] = {}
        self._edges: dict[int, MeshEdges] = {}

    def scene(self, side: int) -> Scene:
        """Return the device seen from a side."""
        if side not in self._scenes:
            self._scenes[side] = Scene(self.bodies, looking(SIDES[side]), GRID_PX, self._edges)
        return self._scenes[side]

    def drawn(self, steps: Sequence[Shown]) -> tuple[Drawing | None, ...]:
        """Return all drawings in order."""
        seen: list[str] = []
        mounted: list[str] = []
        laced: dict[str, str] = {}
        found = []
        for step in steps:
            fresh = [part for part in step.parts if part not in seen]
            kind, _, name = step.name.partition(": ")
            pins = [body for body, *_ in self.pins.get(name, ())] if kind == "hardware" else []
            found.append(self._step(step, self._new(step, fresh, bool(pins)), pins, mounted, laced, name, kind))
            seen += fresh
            mounted += pins
            if kind == "cord":
                laced[name] = step.parts[0]
        return tuple(found)

    def _new(self, step: Shown, fresh: Sequence[str], pinned: bool) -> list[str]:
        """Return the copies that are dark: parts that join here, or what moves where all are there already."""
        if fresh and len(fresh) == len(step.parts) and len(fresh) > 1:
            parts: Sequence[str] = fresh[1:]
        elif fresh:
            parts = fresh
        elif pinned:
            parts = ()
        else:
            parts = step.parts[-1:]
        return [copy for part in parts for copy in self.standing.of(part)]

    def _step(
        self,
        step: Shown,
        new: list[str],
        pins: list[str],
        mounted: Sequence[str],
        laced: Mapping[str, str],
        name: str,
        kind: str,
    ) -> Drawing | None:
        """Return one drawing; None where none of its parts has a place."""
        named = [copy for part in step.parts for copy in self.standing.of(part)]
        if not named:
            return None
        there = [copy for copy in self.standing.bodies if part_of(copy) in step.there or copy in named]
        held = [body for body in mounted if self._holds(body, step.there) and body not in pins]
        dark = [*new, *pins]
        cord = self.cords.get(name) if kind == "cord" else None
        if kind == "cord" and cord is not None:
            dark = []
        every = list(dict.fromkeys([*there, *held, *dark]))
        scene, nearest, share = self._side(dark, every)
        frame = _frame(scene, [*named, *pins], None if cord is None else scene.view.flat(cord))
        rest = [one for one in every if one not in dark]
        shapes = self._shapes(scene, frame, rest, dark, nearest, share < SEEN_SHARE)
        strung = [one for one, part in laced.items() if part in step.there]
        for one in dict.fromkeys([*strung, *([name] if kind == "cord" else [])]):
            if one in self.cords:
                shapes += _cord_shapes(scene, frame, nearest, self.cords[one], dark=one == name)
        shapes += [arrow for arrow in self._arrows(scene, frame, name if pins else "", new, step, there) if arrow]
        return Drawing(width_mm=WIDE_MM, height_mm=HIGH_MM, about=step.about, shapes=tuple(shapes), short=True)

    def _shapes(
        self,
        scene: Scene,
        frame: DrawnFrame,
        rest: Collection[str],
        dark: Collection[str],
        nearest: Floats,
        hidden: bool,
    ) -> list[Shape]:
        """Return the rest in light lines, then what is dark: filled, in bold lines, dashed where it is hidden."""
        shapes: list[Shape] = []
        light = scene.lines(rest, nearest, frame, FINE_MM)
        shapes += [replace(light, stroke_mm=0.15, ink_share=PALE_INK)] if light else []
        if not dark:
            return shapes
        rings = scene.covered(dark, nearest, frame)
        shapes += [Shape(rings=rings, fill=DARK, stroke_mm=0.0)] if rings else []
        bold = scene.lines(dark, nearest, frame, FINE_MM)
        shapes += [replace(bold, stroke_mm=0.3)] if bold else []
        behind = scene.hidden(dark, nearest, frame, FINE_MM) if hidden else None
        shapes += [replace(behind, stroke_mm=0.2, dashed=True)] if behind else []
        return shapes

    def _arrows(
        self, scene: Scene, frame: DrawnFrame, hardware: str, new: Sequence[str], step: Shown, there: Sequence[str]
    ) -> list[Shape | None]:
        """Return an arrow along each free way in: of hardware along its axes, else of the new parts onto the others.

        Parts that hardware joins come along its axis, or no arrow is drawn.
        """
        if hardware:
            return [_arrow(scene, frame, axis.ends_mm[0], axis.way) for _, axis, free in self.pins[hardware] if free]
        rest = [copy for copy in there if copy not in new]
        found = []
        for part in dict.fromkeys(part_of(copy) for copy in new):
            mine = [copy for copy in new if part_of(copy) == part]
            onto = [copy for copy in rest if part_of(copy) in step.parts]
            joined = [
                axis.way
                for pins in self.pins.values()
                for _, axis, _ in pins
                if part in axis.parts and axis.parts & {part_of(copy) for copy in onto}
            ]
            way = self.ways.free(mine, rest, onto, joined)
            if way is not None:
                for copy in mine:
                    points = self.bodies[copy].points_mm
                    middle = (points.min(axis=0) + points.max(axis=0)) / 2
                    start = middle - way * float(np.max((middle - points) @ way))
                    found.append(_arrow(scene, frame, start, way))
        return found

    def _holds(self, body: str, there: frozenset[str]) -> bool:
        """Return whether a piece of hardware lies in parts that hang together with a step."""
        return any(axis.parts <= there for pins in self.pins.values() for name, axis, _ in pins if name == body)

    def _side(self, dark: Collection[str], every: Collection[str]) -> tuple[Scene, Floats, float]:
        """Return the first side that shows enough of what is dark, else the one that shows most of it.

        With it the nearest depth of all that is there, and the share of the dark that is seen.
        """
        tries = []
        for side in range(len(SIDES)):
            scene = self.scene(side)
            nearest = scene.nearest(every)
            share = scene.share_seen(dark, nearest) if dark else 1.0
            tries.append((scene, nearest, share))
            if share >= SEEN_SHARE:
                break
        return max(tries, key=lambda tried: tried[2])


def _frame(scene: Scene, names: Collection[str], cord: Floats | None) -> DrawnFrame:
    """Return the part of the view about some bodies and a cord, in the picture's proportion."""
    low, high = scene.box_of(names)
    if cord is not None:
        low, high = np.minimum(low, cord[:, :2].min(axis=0)), np.maximum(high, cord[:, :2].max(axis=0))
    middle, size = (low + high) / 2, (high - low) * 1.25
    wide = max(float(size[0]), float(size[1]) * WIDE_MM / HIGH_MM, LEAST_MM)
    half = np.array([wide, wide * HIGH_MM / WIDE_MM]) / 2
    a, b = middle - half, middle + half
    return DrawnFrame(low_mm=(float(a[0]), float(a[1])), high_mm=(float(b[0]), float(b[1])), ratio=WIDE_MM / wide)


def _cord_shapes(scene: Scene, frame: DrawnFrame, nearest: Floats, line_mm: Floats, *, dark: bool) -> list[Shape]:
    """Return a cord where it is seen; the one that the step threads is bold, and dashed where something hides it."""
    seen, hidden = scene.split(line_mm, nearest)
    strokes = [(seen, 0.7, False), (hidden, 0.35, True)] if dark else [(seen, 0.25, False)]
    found = []
    for lines, stroke_mm, dashed in strokes:
        shape = scene.drawn(lines, frame, FINE_MM)
        found += [replace(shape, stroke_mm=stroke_mm, dashed=dashed)] if shape else []
    return found


def _arrow(scene: Scene, frame: DrawnFrame, to_mm: Floats, way: Floats) -> Shape | None:
    """Return an arrow that ends short of a place, along a way into the device; None where the way is seen end on."""
    flat_way = scene.view.flat(way[None])[0, :2]
    long = float(np.hypot(*flat_way))
    if long < 0.2:
        return None
    unit = flat_way / long
    end = np.array(frame.at(scene.view.flat(np.asarray(to_mm)[None])[0])) - 1.2 * unit
    start = end - ARROW_MM * unit
    size = np.array([WIDE_MM, HIGH_MM])
    if np.any(end < 0) or np.any(end > size):
        return None
    start = np.clip(start, 0.5, size - 0.5)
    side = np.array([-unit[1], unit[0]])
    back = end - TIP_MM * unit
    half = 0.28

    def at(point: Floats) -> tuple[float, float]:
        """Return a point of the paper."""
        return round(float(point[0]), 2), round(float(point[1]), 2)

    ring = (
        at(end),
        at(back + side * 0.9),
        at(back + side * half),
        at(start + side * half),
        at(start - side * half),
        at(back - side * half),
        at(back - side * 0.9),
    )
    return Shape(rings=(ring,), fill=0.0, stroke_mm=0.0)

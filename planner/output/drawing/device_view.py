"""The device put together, as the page's script draws and moves it: where copies stand at every step."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from planner.job import part_of
from planner.mechanism import Frame, JointMove, LockedError, stop_words
from planner.output.line_drawing.copies_standing import Standing, rest_of, way_from_bed
from planner.plan import Plan

Json = dict[str, object]
Floats = NDArray[np.float64]
STEPS_N = 24
"""A joint is shown at this many steps from one end of its range to the other."""
FREE_DEG, FREE_MM = 180.0, 20.0
"""A joint that nothing stops is shown so far to both sides."""
PLATE_HUES = ("#8ec9ee", "#f3c46b", "#7ccbb2", "#f1a67f", "#dcb3cc", "#f5ee9e", "#8fb6d4", "#c9d2d4")
"""Okabe and Ito (2008), lightened for faces; the list beside the picture says the same in words."""


def device_json(plan: Plan, standing: Standing) -> Json | None:
    """Return the device put together, in mm at the planned size; None where nothing says how its parts stand.

    Matrices are 12 numbers, three rows of four, from a part on the bed to its place in the device.
    """
    if not standing.bodies:
        return None
    view = _View(plan, standing)
    low, high = view.box_mm()
    joints = plan.movement.at(standing.factor).joints if plan.movement else ()
    return {
        "copies": [view.copy(name) for name in standing.frames],
        "middle": [round(float(value), 2) for value in (low + high) / 2],
        "cords": view.cords({}),
        "joints": [made for joint in joints if (made := _joint(view, joint)) is not None],
        "mirrored": standing.mirrored,
    }


class _View:
    """The placed copies of a plan's device."""

    def __init__(self, plan: Plan, standing: Standing) -> None:
        self.standing, self.movement, self.factor = standing, plan.movement, standing.factor
        self.parts = {part.part.name: part for part in plan.parts}
        self.hues, self.numbers = part_hues(plan), part_numbers(plan)
        self.rest = rest_of(plan, self.factor)

    def drawn(self, joint: JointMove, value: float) -> float:
        """Return a value of a joint as the mechanism takes it: what slides is told at size, and moves as drawn."""
        return value / self.factor if joint.kind == "slides" else value

    def _frames(self, values: Mapping[str, float]) -> dict[str, Frame]:
        """Return where the copies that the plan has stand, joints that are not named at rest."""
        if self.movement is None:
            return dict(self.standing.frames)
        try:
            frames = self.movement.mechanism.frames_at({**self.rest, **values})
        except LockedError:
            return {}
        return {copy: frame for copy, frame in frames.items() if part_of(copy) in self.parts}

    def copy(self, name: str) -> Json:
        """Return one copy as it stands at rest."""
        part = part_of(name)
        at, high = self._matrix(name, self.standing.frames[name]), self.parts[part].posed.size_mm[2]
        return {
            "name": name,
            "part": part,
            "number": self.numbers[part],
            "hue": self.hues[part],
            "at": at,
            "centre": [round(float(value), 2) for value in np.reshape(at, (3, 4)) @ [0.0, 0.0, high / 2, 1.0]],
        }

    def box_mm(self) -> tuple[Floats, Floats]:
        """Return the corners of the box about the device at rest."""
        corners = [body.points_mm for body in self.standing.bodies.values()]
        return np.min([c.min(axis=0) for c in corners], axis=0), np.max([c.max(axis=0) for c in corners], axis=0)

    def moved(self, values: Mapping[str, float]) -> dict[str, list[float]] | None:
        """Return the copies that stand elsewhere than at rest; None where the mechanism cannot be brought there."""
        frames, at_rest = self._frames(values), self.standing.frames
        if not frames:
            return None
        return {
            name: self._matrix(name, frame)
            for name, frame in frames.items()
            if name in at_rest
            and not (
                np.allclose(frame.turn, at_rest[name].turn) and np.allclose(frame.shift_mm, at_rest[name].shift_mm)
            )
        }

    def cords(self, values: Mapping[str, float]) -> list[list[list[float]]]:
        """Return the lines of all cords, at size."""
        if self.movement is None:
            return []
        lines = self.movement.lines_at({**self.rest, **values}, self.factor).values()
        return [[[round(float(v), 2) for v in self.standing.shown(np.asarray(p))] for p in line] for line in lines]

    def _matrix(self, name: str, frame: Frame) -> list[float]:
        """Return the way from a part on the bed to its place in the device."""
        turn, shift = way_from_bed(self.parts[part_of(name)], frame, self.factor, mirrored=self.standing.mirrored)
        return [round(float(value), 5) for value in np.column_stack([turn, shift]).ravel()]


def _joint(view: _View, joint: JointMove) -> Json | None:
    """Return one joint with its steps; None where it does not move or its range is not known."""
    if joint.kind == "fixed" or joint.unknown:
        return None
    most = FREE_MM if joint.kind == "slides" else FREE_DEG
    low, high = (end if end is not None else side * most for end, side in zip(joint.free_deg, (-1, 1), strict=True))
    values = np.linspace(low, high, STEPS_N + 1)
    steps = [(float(value), view.moved({joint.name: view.drawn(joint, float(value))})) for value in values]
    kept = [(value, moved) for value, moved in steps if moved is not None]
    if not kept:
        return None
    return {
        "name": joint.name,
        "unit": joint.unit,
        "free": list(joint.free_deg),
        "needs": None if joint.needs_deg is None else list(joint.needs_deg),
        "rest": joint.rest_deg,
        "stops": [f"it follows {joint.follows}"]
        if joint.follows
        else [f"at {stop.at_deg:.1f}{joint.unit}: {stop_words(stop)}" for stop in joint.stops],
        "steps": [round(value, 3) for value, _ in kept],
        "moved": [moved for _, moved in kept],
        "cords": [view.cords({joint.name: view.drawn(joint, value)}) for value, _ in kept],
    }


def plate_hues(plan: Plan) -> list[tuple[int, str, list[tuple[int, str]]]]:
    """Return every plate with the colour of its parts, and the numbers and names of those parts.

    A part that lies on several plates is told of the first.
    """
    numbers, home = part_numbers(plan), _home(plan)
    return [
        (
            plate.number,
            _hue(plate.number),
            [(numbers[name], name) for name in numbers if home.get(name) == plate.number],
        )
        for plate in plan.plates
    ]


def part_numbers(plan: Plan) -> dict[str, int]:
    """Return the number of every part on the pictures of the device, from 1 on in the job's order."""
    return {part.part.name: number for number, part in enumerate(plan.parts, 1)}


def part_hues(plan: Plan) -> dict[str, str]:
    """Return the colour of every part: that of its plate; a colour of its own for what lies on none."""
    home = _home(plan)
    return {part.part.name: _hue(home.get(part.part.name, len(PLATE_HUES))) for part in plan.parts}


def _home(plan: Plan) -> dict[str, int]:
    """Return the first plate that each part lies on."""
    return {place.part: plate.number for plate in reversed(plan.plates) for place in plate.placements}


def _hue(plate_number: int) -> str:
    """Return the colour of a plate's parts."""
    return PLATE_HUES[(plate_number - 1) % len(PLATE_HUES)]

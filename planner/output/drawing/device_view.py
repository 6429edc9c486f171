"""The device put together, as the page's script draws and moves it: where copies stand at every step."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from manifold3d import Manifold
from numpy.typing import NDArray

from planner.job import part_of
from planner.mechanism import Frame, JointMove, LockedError, Movement, stop_words
from planner.mesh import Solid, arrays_of, posed_points
from planner.output.drawing.part_picture import picture_uri
from planner.plan import Plan, PlannedPart
from planner.scale import Scale

Json = dict[str, object]
Floats = NDArray[np.float64]
STEPS_N = 24
"""A joint is shown at this many steps from one end of its range to the other."""
FREE_DEG, FREE_MM = 180.0, 20.0
"""A joint that nothing stops is shown so far to both sides."""
PLATE_HUES = ("#8ec9ee", "#f3c46b", "#7ccbb2", "#f1a67f", "#dcb3cc", "#f5ee9e", "#8fb6d4", "#c9d2d4")
"""Okabe and Ito (2008), lightened for faces; the list beside the picture says the same in words."""
MIRROR = np.diag([-1.0, 1.0, 1.0])


def device_json(plan: Plan) -> Json | None:
    """Return the device put together, in mm at the planned size; None where no copy's place is known.

    Matrices are 12 numbers, three rows of four, from a part on the bed to its place in the device.
    """
    movement = plan.movement
    if movement is None or not movement.mechanism.frames:
        return None
    view = _View(plan, movement)
    moved = movement.at(view.factor)
    copies = [view.copy(name) for name in view.at_rest]
    if not copies:
        return None
    low, high = view.box_mm()
    return {
        "copies": copies,
        "middle": [round(float(value), 2) for value in (low + high) / 2],
        "radius": round(float(np.linalg.norm(high - low)) / 2, 2),
        "cords": view.cords({}),
        "joints": [made for joint in moved.joints if (made := _joint(view, joint)) is not None],
        "mirrored": view.mirrored,
    }


class _View:
    """The placed copies of a plan's device."""

    def __init__(self, plan: Plan, movement: Movement) -> None:
        self.movement = movement
        self.factor = Scale(plan.scale_percent).factor
        self.parts = {part.part.name: part for part in plan.parts}
        self.mirrored = any(part.mirrored for part in plan.parts)
        self.plates = {
            piece: plate.number
            for plate in reversed(plan.plates)
            for piece in (place.part for place in plate.placements)
        }
        self.from_bed = {name: _from_bed(part) for name, part in self.parts.items()}
        joints = movement.at(self.factor).joints
        self.rest = {joint.name: self.drawn(joint, joint.rest_deg) for joint in joints if not joint.unknown}
        self.at_rest = self._frames({})

    def drawn(self, joint: JointMove, value: float) -> float:
        """Return a value of a joint as the mechanism takes it: what slides is told at size, and moves as drawn."""
        return value / self.factor if joint.kind == "slides" else value

    def _frames(self, values: Mapping[str, float]) -> dict[str, Frame]:
        """Return where the copies that the plan has stand, joints that are not named at rest."""
        try:
            frames = self.movement.mechanism.frames_at({**self.rest, **values})
        except LockedError:
            return {}
        return {copy: frame for copy, frame in frames.items() if part_of(copy) in self.parts}

    def copy(self, name: str) -> Json:
        """Return one copy as it stands at rest."""
        part = part_of(name)
        at, high = self._matrix(name, self.at_rest[name]), self.parts[part].posed.size_mm[2]
        return {
            "name": name,
            "part": part,
            "hue": _hue(self.plates.get(part, len(PLATE_HUES))),
            "at": at,
            "centre": [round(float(value), 2) for value in np.reshape(at, (3, 4)) @ [0.0, 0.0, high / 2, 1.0]],
        }

    def box_mm(self) -> tuple[Floats, Floats]:
        """Return the corners of the box about the device at rest."""
        corners = [
            self.parts[part_of(name)].posed.vertices_mm @ at[:, :3].T + at[:, 3]
            for name, frame in self.at_rest.items()
            for at in [np.reshape(self._matrix(name, frame), (3, 4))]
        ]
        return np.min([c.min(axis=0) for c in corners], axis=0), np.max([c.max(axis=0) for c in corners], axis=0)

    def moved(self, values: Mapping[str, float]) -> dict[str, list[float]] | None:
        """Return the copies that stand elsewhere than at rest; None where the mechanism cannot be brought there."""
        frames = self._frames(values)
        if not frames:
            return None
        return {
            name: self._matrix(name, frame)
            for name, frame in frames.items()
            if not (
                np.allclose(frame.turn, self.at_rest[name].turn)
                and np.allclose(frame.shift_mm, self.at_rest[name].shift_mm)
            )
        }

    def cords(self, values: Mapping[str, float]) -> list[list[list[float]]]:
        """Return the lines of all cords, at size."""
        lines = self.movement.lines_at({**self.rest, **values}, self.factor).values()
        side = MIRROR if self.mirrored else np.eye(3)
        return [[[round(float(v), 2) for v in side @ np.asarray(point)] for point in line] for line in lines]

    def _matrix(self, name: str, frame: Frame) -> list[float]:
        """Return the way from a part on the bed to its place in the device."""
        turn, shift = self.from_bed[part_of(name)]
        whole = np.asarray(frame.turn) @ turn
        moved = np.asarray(frame.turn) @ shift + np.asarray(frame.shift_mm) * self.factor
        if self.mirrored:
            whole, moved = MIRROR @ whole, MIRROR @ moved
        return [round(float(value), 5) for value in np.column_stack([whole, moved]).ravel()]


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


def _from_bed(part: PlannedPart) -> tuple[Floats, Floats]:
    """Return rotation (3, 3) and shift (3,) from a part on the bed back to its mesh at size, not mirrored."""
    side = MIRROR if part.mirrored else np.eye(3)
    down = part.pose.down
    bed_down = (-down[0], down[1], down[2]) if part.mirrored else down
    corners = np.vstack([np.zeros(3), np.eye(3)]) @ side
    placed = posed_points(corners, part.sized, bed_down)
    onto = (placed[1:] - placed[0]).T
    turn = onto.T
    return turn, -turn @ placed[0]


def plate_hues(plan: Plan) -> list[tuple[int, str]]:
    """Return the colour of every plate's parts, by its number."""
    return [(plate.number, _hue(plate.number)) for plate in plan.plates]


def _hue(plate_number: int) -> str:
    """Return the colour of a plate's parts."""
    return PLATE_HUES[(plate_number - 1) % len(PLATE_HUES)]


def device_picture(plan: Plan) -> str:
    """Return a still picture of the device put together, as an image's address; empty where no place is known."""
    movement = plan.movement
    if movement is None:
        return ""
    bodies = [
        body.transform(frame.matrix())
        for copy, frame in movement.mechanism.frames.items()
        if (body := movement.solids[part_of(copy)].manifold) is not None
    ]
    if not bodies:
        return ""
    vertices_mm, faces = arrays_of(Manifold.compose(bodies))
    return picture_uri(Solid(name="device", vertices_mm=vertices_mm, faces=faces, sha256=""))

"""The copies of a plan's parts where they stand in the device at size, and why others are not shown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from planner.assembly import claims_of
from planner.job import part_of
from planner.mechanism import Frame, LockedError, Placed, places_of
from planner.mesh import posed_points
from planner.output.line_drawing.scene import Body
from planner.output.line_drawing.view_grid import Floats
from planner.plan import Plan, PlannedPart
from planner.scale import Scale

MIRROR = np.diag([-1.0, 1.0, 1.0])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)  # arrays do not compare
class Standing:
    """Copies as bodies; ``bodies`` is empty where nothing says how parts stand to each other, and ``why`` says so."""

    bodies: Mapping[str, Body]
    """Solids as they lie on the bed, with the way from there to their place."""
    frames: Mapping[str, Frame]
    """Where the copies stand at 100 %, not mirrored, with every joint at rest."""
    drawn: Mapping[str, Frame]
    """The same as drawn."""
    factor: float
    mirrored: bool
    missing: tuple[tuple[str, str], ...]
    """Copies that are not shown, each with the reason."""
    why: str = ""

    def of(self, part: str) -> tuple[str, ...]:
        """Return the copies of a part that are shown."""
        return tuple(copy for copy in self.bodies if part_of(copy) == part)

    def point(self, at_mm: Floats) -> Floats:
        """Return a place of the device at 100 % where it is shown: at size, and mirrored with the device."""
        return self.shown(np.asarray(at_mm, dtype=np.float64) * self.factor)

    def shown(self, at_mm: Floats) -> Floats:
        """Return a place of the device at size where it is shown: mirrored with the device."""
        found: Floats = (MIRROR if self.mirrored else np.eye(3)) @ at_mm
        return found


def standing_of(plan: Plan) -> Standing:
    """Return the copies in their places: where the mechanism has put them, else where they are drawn or stated."""
    factor = Scale(plan.scale_percent).factor
    parts = {part.part.name: part for part in plan.parts}
    placed = _placed(plan)
    drawn = {copy: frame for copy, frame in placed.copies.items() if part_of(copy) in parts}
    frames = _at_rest(plan, drawn, factor)
    mirrored = any(part.mirrored for part in plan.parts)
    missing = tuple((copy, placed.why.get(copy, "nothing says where it stands")) for copy in placed.unplaced)
    pieces = sum(part.part.count for part in plan.parts)
    if len(frames) < min(2, pieces):
        return Standing(
            bodies={},
            frames={},
            drawn={},
            factor=factor,
            mirrored=mirrored,
            missing=missing,
            why="Nothing says how the parts stand to each other: their meshes are not drawn in place, no hardware "
            "joins them in one way alone, and the job has no [[place]].",
        )
    bodies = {}
    for copy, frame in frames.items():
        part = parts[part_of(copy)]
        turn, shift = way_from_bed(part, frame, factor, mirrored=mirrored)
        bodies[copy] = Body(solid=part.posed, turn=turn, shift_mm=shift)
    return Standing(bodies=bodies, frames=frames, drawn=drawn, factor=factor, mirrored=mirrored, missing=missing)


def _placed(plan: Plan) -> Placed:
    """Return where the copies stand; a device in which nothing moves has places, too."""
    if plan.movement is not None:
        return plan.movement.mechanism.placed
    solids = {part.part.name: part.solid for part in plan.parts}
    surveys = {part.part.name: part.survey for part in plan.parts}
    return places_of(plan.job, solids, surveys, claims_of(plan.job, surveys).claims)


def rest_of(plan: Plan, factor: float) -> dict[str, float]:
    """Return the value of every joint at rest, as the mechanism takes it; empty where nothing moves."""
    joints = plan.movement.at(factor).joints if plan.movement else ()
    return {
        joint.name: joint.rest_deg / factor if joint.kind == "slides" else joint.rest_deg
        for joint in joints
        if not joint.unknown
    }


def _at_rest(plan: Plan, drawn: Mapping[str, Frame], factor: float) -> dict[str, Frame]:
    """Return the frames with every joint at rest; as drawn where a loop cannot be brought there."""
    if plan.movement is None:
        return dict(drawn)
    try:
        found = plan.movement.mechanism.frames_at(rest_of(plan, factor))
    except LockedError:
        return dict(drawn)
    return {copy: found.get(copy, frame) for copy, frame in drawn.items()}


def way_from_bed(part: PlannedPart, frame: Frame, factor: float, *, mirrored: bool) -> tuple[Floats, Floats]:
    """Return turn and shift that take a part from the bed to its place, the device mirrored or not."""
    turn, shift = from_bed_of(part)
    whole = np.asarray(frame.turn) @ turn
    moved = np.asarray(frame.turn) @ shift + np.asarray(frame.shift_mm) * factor
    return (MIRROR @ whole, MIRROR @ moved) if mirrored else (whole, moved)


def from_bed_of(part: PlannedPart) -> tuple[Floats, Floats]:
    """Return rotation (3, 3) and shift (3,) from a part on the bed back to its mesh at size, not mirrored."""
    side = MIRROR if part.mirrored else np.eye(3)
    down = part.pose.down
    bed_down = (-down[0], down[1], down[2]) if part.mirrored else down
    corners = np.vstack([np.zeros(3), np.eye(3)]) @ side
    placed = posed_points(corners, part.sized, bed_down)
    onto = (placed[1:] - placed[0]).T
    turn = onto.T
    return turn, -turn @ placed[0]

"""Pins that are printed as parts: they stand where they are drawn in their bores, or in the middle of them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import manifold3d
import numpy as np

from planner.assembly import ROUND_SHARE, TURNED_DEG, Claim, fills
from planner.finding import Vec3
from planner.job import Hardware, Job, copy_name
from planner.mechanism.joints.bore_stacks import BoreStack, bore_stacks
from planner.mechanism.places.frame import STILL, Frame
from planner.mechanism.range.axis_shells import along
from planner.mesh import Solid

ALIKE_SHARE = 0.995
"""A pin that shares so much with itself turned end for end has no head."""


def _pins(job: Job, claims: Sequence[Claim], frames: Mapping[str, Frame]) -> Iterator[tuple[str, Hardware, BoreStack]]:
    """Yield every copy of a printed pin with the bores of placed copies that it lies in: one for each axis."""
    stacks = bore_stacks(claims, frames)
    for hardware in job.hardware:
        if hardware.printed:
            mine = [stack for stack in stacks if stack.pin.name == hardware.name and len(stack.bores) > 1]
            for n, stack in enumerate(mine[: job.part(hardware.printed).count], start=1):
                yield copy_name(hardware.printed, n), hardware, stack


def held_pins(job: Job, claims: Sequence[Claim], frames: Mapping[str, Frame]) -> Iterator[tuple[str, str, Vec3, Vec3]]:
    """Yield every placed printed pin, the copy that it goes with, and the axis and a point of its bores.

    It goes with a copy in which nothing turns on it, else with the first on its axis.
    """
    for copy, _, stack in _pins(job, claims, frames):
        if copy in frames:
            first = stack.bores[0]
            holder = next((one.copy for one in stack.bores if not one.turning), first.copy)
            yield copy, holder, first.bore.axis, first.bore.centre_mm


def printed_pins(
    job: Job, solids: Mapping[str, Solid], claims: Sequence[Claim], frames: Mapping[str, Frame]
) -> dict[str, tuple[Frame, bool]]:
    """Return the frames of printed pins that have none, and whether each is drawn there.

    A pin without a head that is drawn elsewhere lies in the middle of its bores; one with a head may lie in them either
    way round, which is not guessed.
    """
    found: dict[str, tuple[Frame, bool]] = {}
    for copy, hardware, stack in _pins(job, claims, frames):
        shape = solids[hardware.printed].manifold if hardware.printed else None
        if copy in frames or shape is None:
            continue
        if job.part(hardware.printed or "").count == 1 and all(
            fills(shape, one.bore, round_only=True) for one in stack.bores
        ):
            found[copy] = STILL, True
        elif (own := _own_axis(shape)) is not None:
            base, (low, high) = stack.bores[0].bore, stack.ends_mm
            middle = np.asarray(base.centre_mm) + np.asarray(base.axis) * (low + high) / 2
            x, y, z = (float(v) for v in middle)
            found[copy] = along(base.axis, (x, y, z)).after(own.inverse()), False
    return found


def _own_axis(shape: manifold3d.Manifold) -> Frame | None:
    """Return a frame in a body's middle with z along it; None where it is not round about that, or has a head."""
    mesh = shape.to_mesh64()
    corners = np.asarray(mesh.vert_properties)[:, :3]
    low, high = corners.min(axis=0), corners.max(axis=0)
    _, _, ways = np.linalg.svd(corners - (low + high) / 2, full_matrices=False)
    x, y, z = (float(v) for v in ways[0])
    heights = corners @ ways[0]
    across = corners - np.outer(heights, ways[0])
    middle = (across.min(axis=0) + across.max(axis=0)) / 2 + ways[0] * (heights.min() + heights.max()) / 2
    a, b, c = (float(v) for v in middle)
    frame = along((x, y, z), (a, b, c))
    there, volume = shape.transform(frame.inverse().matrix()), float(shape.volume())
    round_ = float((there ^ there.rotate((0.0, 0.0, TURNED_DEG))).volume()) > ROUND_SHARE * volume
    alike = float((there ^ there.rotate((180.0, 0.0, 0.0))).volume()) > ALIKE_SHARE * volume
    return frame if round_ and alike else None

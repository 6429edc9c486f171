"""A joint between two copies: how the second moves on the first, about or along which line."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from planner.finding import Vec3
from planner.job import Joint as StatedJoint
from planner.mechanism.joints.bore_stacks import PlacedBore

Kind = Literal["turns", "slides", "fixed"]
PARALLEL_COS = 0.999
ONE_LINE_MM = 0.5
"""Axes this near to each other are one; common practice, no source."""
GUIDED = "faces guide it, and nobody states it"
"""Why a joint is taken to slide that only meshes show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingJoint:
    """How two copies are joined, in the device's frame at the drawn place.

    Parameters
    ----------
    name
        What the job calls it, else ``"deck to jaw"``.
    parts
        The copy that stands, and the one that moves.
    axis
        Unit vector: turning is positive by the right hand about it, sliding along it. Its sense is that of the moving
        copy's bore as surveyed.
    at_mm
        A point of the axis, in the middle of the moving copy's bore.
    pin
        The hardware that lies in the axis; empty where none does.
    bores
        Copy and bore of every bore in the axis.
    rest_deg, needs_deg, limits_deg
        As stated, counted from the drawn place; of a sliding joint in mm.
    peg_mm
        Diameter of the round peg of one copy that lies in a bore of the other; 0 where it is hardware, or nothing.
    ring
        The bearing that carries such a peg; empty where none does.
    about
        Of a pin in a slot, which turns there as well as it slides: the axis that it turns about. Else None.
    zero_known
        False where the drawn place itself is not known, because one of the copies was put together with this angle
        free: ranges then tell how far, and not from where.
    why
        What shows it, in words.
    """

    name: str
    parts: tuple[str, str]
    kind: Kind
    axis: Vec3
    at_mm: Vec3
    pin: str = ""
    bores: tuple[tuple[str, str], ...] = ()
    rest_deg: float | None = None
    needs_deg: tuple[float, float] | None = None
    limits_deg: tuple[float, float] | None = None
    peg_mm: float = 0.0
    ring: str = ""
    about: Vec3 | None = None
    zero_known: bool = True
    why: str = ""

    @property
    def unit(self) -> str:
        """What its values are counted in."""
        return "mm" if self.kind == "slides" else "deg"


def one_line(one: MovingJoint, other: MovingJoint) -> bool:
    """Return whether two joints turn about one line, or slide in one direction."""
    a, b = np.asarray(one.axis), np.asarray(other.axis)
    if one.kind != other.kind or abs(float(a @ b)) < PARALLEL_COS:
        return False
    between = np.asarray(other.at_mm) - np.asarray(one.at_mm)
    beside = between - a * float(between @ a)
    return one.kind == "slides" or float(np.linalg.norm(beside)) < ONE_LINE_MM


def named_once(joints: Sequence[MovingJoint]) -> tuple[MovingJoint, ...]:
    """Return the joints with every name once: a second one gets a number."""
    return tuple(_numbered(joints))


def _numbered(joints: Sequence[MovingJoint]) -> Iterator[MovingJoint]:
    """Yield the joints, a name that was given before with its number."""
    seen: dict[str, int] = {}
    for joint in joints:
        seen[joint.name] = seen.get(joint.name, 0) + 1
        yield joint if seen[joint.name] == 1 else replace(joint, name=f"{joint.name}, {seen[joint.name]}")


def made(
    pair: tuple[str, str],
    said: StatedJoint | None,
    kind: Kind,
    axis: Vec3,
    *,
    at_mm: Vec3,
    pin: str = "",
    bores: Sequence[PlacedBore] = (),
    why: str,
) -> MovingJoint:
    """Return a joint with what is stated of it."""
    x, y, z = np.asarray(axis) / np.linalg.norm(np.asarray(axis))
    return MovingJoint(
        name=joint_name(pair, said),
        parts=pair,
        kind=kind,
        axis=(float(x), float(y), float(z)),
        at_mm=at_mm,
        pin=pin,
        bores=tuple((one.copy, one.bore.id) for one in bores),
        rest_deg=said.rest_deg if said else None,
        needs_deg=said.needs_deg if said else None,
        limits_deg=said.limits_deg if said else None,
        why=why,
    )


def joint_name(pair: tuple[str, str], said: StatedJoint | None) -> str:
    """Return what a joint is called."""
    if said is None or not said.name:
        return " to ".join(pair)
    return said.name if pair in (said.copies, said.copies[::-1]) else f"{said.name} ({' to '.join(pair)})"

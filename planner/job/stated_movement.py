"""What a person says about how a device moves: where parts stand, named points, a cord's way, what pulls it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from planner.finding import Vec3

Equaliser = Literal["pulley", "bar", "knot"]
COPY = re.compile(r"(?P<part>.+)#(?P<n>[1-9][0-9]*)")
"""A copy of a part, such as ``jaw#2``; the first needs no number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartPlace:
    """Where a copy of a part stands in the device, at 100 %, where its mesh is not drawn in place."""

    part: str
    """The part, or one copy of it, such as "jaw#2"; the first needs no number."""
    at_mm: Vec3 = (0.0, 0.0, 0.0)
    """Where the mesh's origin comes to stand, after turning."""
    turn: tuple[float, float, float, float] = (0.0, 0.0, 1.0, 0.0)
    """Axis x, y, z and degrees: the mesh is turned about its origin first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedPoint:
    """A point of a part that a cord's path may name, such as a hook."""

    part: str
    """The part."""
    name: str
    """What paths call it."""
    at_mm: Vec3
    """Where it lies in the part's mesh."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """A joint of the body that pulls the cords."""

    joint: str
    """What cords call it in `from`: wrist, elbow, shoulder."""
    arm_mm: float | None = None
    """From the body joint's axis to the cord; the body's own, so it does not scale."""
    range_deg: tuple[float, float] | None = None
    """How far the joint goes, measured; a positive angle pulls."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PathPoint:
    """One place on a cord's way: a feature of a copy, or a point of it.

    ``feature`` is ``"ch1"`` (the part's first channel), ``"b1"`` (round what lies in that bore) or the name of a point;
    empty where ``at_mm`` says the place.
    """

    copy: str
    feature: str = ""
    at_mm: Vec3 | None = None


def part_of(copy: str) -> str:
    """Return the part that a copy is of.

    >>> part_of("jaw#2"), part_of("jaw")
    ('jaw', 'jaw')
    """
    found = COPY.fullmatch(copy)
    return found["part"] if found else copy


def number_of(copy: str) -> int:
    """Return which copy is meant, 1 for the first.

    >>> number_of("jaw#2"), number_of("jaw")
    (2, 1)
    """
    found = COPY.fullmatch(copy)
    return int(found["n"]) if found else 1


def copy_name(part: str, number: int) -> str:
    """Return what a copy is called.

    >>> copy_name("jaw", 2), copy_name("jaw", 1)
    ('jaw#2', 'jaw')
    """
    return part if number == 1 else f"{part}#{number}"

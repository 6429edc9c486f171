"""How a device moves, as a job file says it: joints, places of parts, named points, paths of cords, the drive."""

from __future__ import annotations

import json
import math
from typing import get_args

from planner.finding import Vec3
from planner.job.file.table import Table, unique
from planner.job.job import Joint, JointKind
from planner.job.stated_movement import Drive, NamedPoint, PartPlace, PathPoint, copy_name, number_of, part_of

JOINTS: tuple[JointKind, ...] = get_args(JointKind)
TURN_MOST_DEG = 360.0
TURN_LEAST_DEG = 0.01
"""A joint that turns less turns not at all: it would pass every check of how far it goes."""
COORDINATES_N = 3
PATH_LEAST_N = 2
FAR_MM = 1e5


def read_joints(table: Table) -> tuple[Joint, ...]:
    """Read every ``[[joint]]``: parts that meet in a way that no bore tells, or how two parts move on each other."""
    joints = []
    for each in table.tables("joint"):
        copies = _two_copies(each)
        joint = Joint(
            between=(part_of(copies[0]), part_of(copies[1])),
            copies=copies,
            how=each.word("how", JOINTS),
            note=each.text("note", "", empty=True),
            name=each.text("name", ""),
            rest_deg=_angle(each, "rest_deg"),
            needs_deg=_range(each, "needs_deg"),
            limits_deg=_range(each, "limits_deg"),
            guessed=each.guessed(),
        )
        each.done()
        joints.append(joint)
    unique((joint.name for joint in joints if joint.name), table.where, "joints")
    return tuple(joints)


def _two_copies(table: Table) -> tuple[str, str]:
    """Read ``between``: two different parts, or two copies of one."""
    between = tuple(_copy(name) for name in table.texts("between", least=2))
    if len(between) != PATH_LEAST_N or between[0] == between[1]:
        table.refuse("between", "two different parts are needed", 'write between = ["deck", "jaw"]')
    return between[0], between[1]


def _copy(name: str) -> str:
    """Return a copy's one name: the first needs no number."""
    return copy_name(part_of(name), number_of(name))


def _angle(table: Table, key: str) -> float | None:
    """Read an angle in degrees; None where it is left out."""
    return table.number_or_none(key, low=-TURN_MOST_DEG, high=TURN_MOST_DEG)


def _range(table: Table, key: str) -> tuple[float, float] | None:
    """Read two angles in degrees, the lower one first; None where they are left out."""
    if not table.has(key):
        return None
    low, high = table.numbers(key, 2, low=-TURN_MOST_DEG, high=TURN_MOST_DEG)
    if low > high:
        table.refuse(key, f"{low:g} is larger than {high:g}", "write the smaller angle first")
    if high - low < TURN_LEAST_DEG:
        table.refuse(key, f"from {low:g} to {high:g} nothing moves", f"at least {TURN_LEAST_DEG:g} degrees are needed")
    return low, high


def read_part_places(table: Table) -> tuple[PartPlace, ...]:
    """Read every ``[[place]]``."""
    places = []
    for each in table.tables("place"):
        turn = each.numbers("turn", 4, low=-FAR_MM, high=FAR_MM) if each.has("turn") else (0.0, 0.0, 1.0, 0.0)
        if math.hypot(*turn[:COORDINATES_N]) < 1e-9:
            each.refuse("turn", "an axis of length 0 points nowhere", "write turn = [0, 0, 1, 90] for a quarter turn")
        place = PartPlace(
            part=_copy(each.text("part")),
            at_mm=each.vector("at_mm", low=-FAR_MM, high=FAR_MM) if each.has("at_mm") else (0.0, 0.0, 0.0),
            turn=(turn[0], turn[1], turn[2], turn[3]),
        )
        each.done()
        places.append(place)
    unique((place.part for place in places), table.where, "places")
    return tuple(places)


def read_points(table: Table) -> tuple[NamedPoint, ...]:
    """Read every ``[[point]]``."""
    points = []
    for each in table.tables("point"):
        points.append(
            NamedPoint(
                part=each.text("part"), name=each.text("name"), at_mm=each.vector("at_mm", low=-FAR_MM, high=FAR_MM)
            )
        )
        each.done()
    unique((f"{point.part}:{point.name}" for point in points), table.where, "points")
    return tuple(points)


def read_drive(table: Table) -> Drive | None:
    """Read ``[drive]``; None where it is left out."""
    if not table.has("drive"):
        return None
    drive = table.table("drive")
    found = Drive(
        joint=drive.text("joint"),
        arm_mm=drive.number_or_none("arm_mm", high=2000.0, above=True),
        range_deg=_range(drive, "range_deg"),
    )
    drive.done()
    return found


def read_path(table: Table) -> tuple[PathPoint, ...]:
    """Read ``path`` of a cord: places in order, ``"part:feature"`` or ``"part:[x, y, z]"``; empty where left out."""
    texts = table.texts("path")
    if len(texts) == 1:
        table.refuse("path", "a path of one place has no length", 'write path = ["deck:ch1", "jaw:[-16.0, -4.0, 1.2]"]')
    return tuple(_path_point(table, text) for text in texts)


def _path_point(table: Table, text: str) -> PathPoint:
    """Read one place of a path."""
    copy, colon, feature = (piece.strip() for piece in text.partition(":"))
    if not (copy and colon and feature):
        table.refuse("path", f"'{text}' cannot be read", 'write "part:feature", such as "deck:ch1" or "jaw:[1, 2, 3]"')
    if not feature.startswith("["):
        return PathPoint(copy=_copy(copy), feature=feature)
    return PathPoint(copy=_copy(copy), at_mm=_point(table, text, feature))


def _point(table: Table, text: str, written: str) -> Vec3:
    """Read ``"[x, y, z]"``."""
    try:
        found = json.loads(written)
    except ValueError:
        found = None
    right = isinstance(found, list) and len(found) == COORDINATES_N
    if not right or not all(type(x) in (int, float) and abs(x) <= FAR_MM for x in found):
        table.refuse("path", f"'{text}' is no point", 'write "part:[x, y, z]" with three numbers in mm')
    return float(found[0]), float(found[1]), float(found[2])

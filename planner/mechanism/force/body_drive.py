"""How much cord a joint of the body draws in, and whether its range is one that people have."""

from __future__ import annotations

import math

from planner.job import Cord, Drive, read_motions


def has_mm(drive: Drive) -> float | None:
    """Return the cord that a body joint draws in over its range: arm x angle; None where either is not stated.

    The arm is the body's own and does not scale.

    >>> round(has_mm(Drive(joint="wrist", arm_mm=45.0, range_deg=(-10.0, 35.0))), 2)
    35.34
    """
    if drive.arm_mm is None or drive.range_deg is None:
        return None
    low, high = drive.range_deg
    return drive.arm_mm * math.radians(high - low)


def drive_of(cord: Cord, drive: Drive | None) -> Drive | str:
    """Return what pulls a cord, or one sentence that asks for it."""
    if drive is None:
        return f"what pulls {cord.name} is not stated: write [drive] with joint, arm_mm and range_deg"
    if cord.drawn_from and cord.drawn_from != drive.joint:
        return f"{cord.name} is pulled from the {cord.drawn_from}, and [drive] speaks of the {drive.joint}"
    return drive


def range_doubt(drive: Drive) -> str:
    """Return one sentence where a stated range is wider than most people have; empty where it is not, or not known.

    The published ranges are those of people without a difference there: they catch a slip and never judge a limb.
    """
    motion = read_motions().get(drive.joint)
    if motion is None or drive.range_deg is None:
        return ""
    spans = drive.range_deg[1] - drive.range_deg[0]
    most = sum(motion.most_deg)
    if spans <= most:
        return ""
    return (
        f"{spans:g}° of {drive.joint} are stated; published measurements end at about {most:.0f}° ({motion.source}): "
        "is it one of the two ends?"
    )


def usual_mm(drive: Drive) -> tuple[float, float] | None:
    """Return the cord that an arm draws in over what daily work uses of a joint, and over all that people have.

    None where the arm is not stated, or no table lists the joint.
    """
    motion = read_motions().get(drive.joint)
    if motion is None or drive.arm_mm is None:
        return None
    daily, most = sum(motion.daily_deg), sum(motion.mean_deg)
    return drive.arm_mm * math.radians(daily), drive.arm_mm * math.radians(most)

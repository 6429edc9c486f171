"""The joints of a device: everything that brings parts together, with what is done and what must be true after it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planner.job import Hardware, Job, JointKind
from planner.output.words.paper_words import bought, counted, listed
from planner.supplies import HardwareLine

FIRM, TIED, STRAPPED, LATE, PADDED = range(5)
"""Stages: what makes a firm group; cords; straps; covers and soft parts, which hide the rest; padding."""
HOW_STAGE: dict[JointKind, int] = {"tied": TIED, "strapped": STRAPPED}
STOPS: dict[str, str] = {
    "turning": "turns through its whole travel by its own weight, and does not rattle",
    "sliding": "goes in by hand; tighten until nothing shifts, not until plastic gives",
    "held": "does not turn or come out by hand",
    "pilot": "went in straight; no white line, no crack",
    "seat": "sits flush and does not turn",
    "gap": "moves through its whole travel and touches nothing",
    "screwed": "nothing shifts under a firm push; what should turn still turns",
    "pressed": "stays on when pulled by hand",
    "slid": "went the whole way without force and does not tilt",
    "snapped": "stays on when the device is shaken",
    "glued": "has set for the glue's own time and does not move",
    "tied": "is just taut at rest; the knots hold a firm pull; ends are 10 mm and sealed",
    "strapped": "lies flat and holds a firm pull",
    "braided": "runs freely both ways over its whole path",
    "elastic": "pulls all the way back by itself",
    "padding": "lies flat, covers every edge, and no metal shows",
}
"""What must be true before the next step; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Something that brings parts together. ``check`` is a key of ``STOPS``."""

    name: str
    parts: tuple[str, ...]
    stage: int
    what: str
    check: str


def names_counted(parts: Iterable[str], counts: Mapping[str, int]) -> list[str]:
    """Return the names with their counts."""
    return [counted(name, counts[name]) for name in parts]


def joints_of(job: Job, lines: Mapping[str, HardwareLine]) -> tuple[Joint, ...]:
    """Return every joint that the job names, hardware first, in the job's order."""
    guided = {cord.part for cord in job.cords}
    tied = {name for joint in job.joints if joint.how == "tied" for name in joint.between}
    late = {p.name for p in job.parts if p.judged_duty in ("cover", "soft") and p.name not in guided}
    counts = {part.name: part.count for part in job.parts}

    def stage(parts: tuple[str, ...]) -> int:
        """Return whether a joint waits for the covers."""
        return LATE if set(parts) & late else FIRM

    found = [_hardware(h, lines[h.name], counts, stage(h.joins)) for h in job.hardware]
    for joint in job.joints:
        one, other = joint.between
        found.append(
            Joint(
                name=f"joint: {joint.between}",
                parts=joint.between,
                stage=HOW_STAGE.get(joint.how, stage(joint.between)),
                what=f"{other} to {one}, {joint.how}" + (f": {joint.note}" if joint.note else ""),
                check=joint.how,
            )
        )
    for gap in job.gaps:
        found.append(
            Joint(
                name=f"gap: {gap.between}",
                parts=gap.between,
                stage=stage(gap.between),
                what=f"Move {gap.between[1]} against {gap.between[0]}, slowly, both ways",
                check="gap",
            )
        )
    for cord in job.cords:
        end = "leave its ends free" if cord.part in tied else "tie it so that it is just taut at rest"
        what = f"Thread {counted(cord.name, cord.count)} through {cord.part}; {end}"
        found.append(Joint(name=f"cord: {cord.name}", parts=(cord.part,), stage=TIED, what=what, check=cord.kind))
    for strap in job.straps:
        what = f"Pass {counted(strap.name, strap.count)} through {counted(strap.part, counts[strap.part])}"
        found.append(
            Joint(name=f"strap: {strap.name}", parts=(strap.part,), stage=STRAPPED, what=what, check="strapped")
        )
    for padding in job.paddings:
        what = f"Line {padding.part} with its padding, {padding.thickness_mm:g} mm"
        found.append(
            Joint(name=f"padding: {padding.part}", parts=(padding.part,), stage=PADDED, what=what, check="padding")
        )
    return tuple(found)


def _hardware(hardware: Hardware, line: HardwareLine, counts: Mapping[str, int], stage: int) -> Joint:
    """Return the joint that a piece of hardware makes."""
    seat = hardware.kind in ("nut", "washer", "insert")
    parts = listed(names_counted(hardware.joins, counts))
    work = f". First: {line.work}" if line.work else ""
    return Joint(
        name=f"hardware: {hardware.name}",
        parts=hardware.joins,
        stage=stage,
        what=f"{counted(hardware.name, hardware.count)} ({bought(line)}) in {parts}{work}",
        check="seat" if seat else hardware.fit or "sliding",
    )

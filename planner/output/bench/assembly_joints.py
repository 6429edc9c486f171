"""The joints of a device: what joins its parts, what to do at each joint, and what must be true afterwards."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planner.job import Hardware, Job, JointKind
from planner.output.bench.piece_words import bought
from planner.output.words.paper_words import with_count
from planner.phrases import listed
from planner.supplies import Built

FIRM, TIED, STRAPPED, LATE, PADDED = range(5)
"""Stages: joints that make a firm group; cords; straps; covers and soft parts, which hide the rest; padding."""
HOW_STAGE: dict[JointKind, int] = {"tied": TIED, "strapped": STRAPPED}
STOPS: dict[str, str] = {
    "turning": "turns through its full range under its own weight, and does not rattle",
    "sliding": "goes in by hand; tighten until nothing shifts, and stop before the plastic yields",
    "held": "does not turn or come out by hand",
    "pilot": "went in straight; there is no white line and no crack",
    "seat": "sits flush and does not turn",
    "gap": "moves through its full range and touches nothing",
    "screwed": "does not shift when pushed firmly; parts that should turn still turn",
    "pressed": "stays on when pulled by hand",
    "slid": "slides all the way in without force and does not tilt",
    "snapped": "stays on when the device is shaken",
    "glued": "has set for the time stated on the glue and does not move",
    "tied": "is just taut at rest; the knots hold a firm pull; the ends are 10 mm long and sealed",
    "strapped": "lies flat and holds a firm pull",
    "turns": "turns through its full range and touches nothing",
    "slides": "slides through its full range and does not tilt",
    "fixed": "does not shift when pushed firmly",
    "braided": "runs freely in both directions over its whole path",
    "elastic": "pulls the part all the way back by itself",
    "padding": "lies flat, covers every edge, and no metal shows",
}
"""What must be true before the next step; common practice, no source."""


MOVEMENTS = ("turns", "slides", "fixed")
"""What a joint says of movement, not of how it is put together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Something that joins parts. ``check`` is a key of ``STOPS``."""

    name: str
    parts: tuple[str, ...]
    stage: int
    what: str
    check: str


def names_counted(parts: Iterable[str], counts: Mapping[str, int]) -> list[str]:
    """Return the names with their counts."""
    return [with_count(name, counts[name]) for name in parts]


def joints_of(job: Job, device: Built) -> tuple[Joint, ...]:
    """Return every joint that the job names, hardware first, in the job's order; hardware as it is built."""
    guided = {cord.part for cord in job.cords}
    tied = {name for joint in job.joints if joint.how == "tied" for name in joint.between}
    late = {p.name for p in job.parts if p.judged_duty in ("cover", "soft") and p.name not in guided}
    counts = {part.name: part.count for part in job.parts}

    def stage(parts: tuple[str, ...]) -> int:
        """Return whether a joint waits for the covers."""
        return LATE if set(parts) & late else FIRM

    found = [_hardware(h, device, counts, stage(h.joins)) for h in job.hardware]
    for joint in job.joints:
        one, other = joint.between
        if joint.how in MOVEMENTS and any({one, other} <= set(h.joins) for h in job.hardware):
            continue  # how they move on the hardware that joins them: no step of its own
        found.append(
            Joint(
                name=f"joint: {joint.copies}",
                parts=joint.between,
                stage=HOW_STAGE.get(joint.how, stage(joint.between)),
                what=f"Join {other} to {one} ({joint.how})" + (f": {joint.note}" if joint.note else ""),
                check=joint.how,
            )
        )
    for gap in job.gaps:
        found.append(
            Joint(
                name=f"gap: {gap.between}",
                parts=gap.between,
                stage=stage(gap.between),
                what=f"Move {gap.between[1]} slowly against {gap.between[0]}, in both directions",
                check="gap",
            )
        )
    for cord in job.cords:
        end = "leave its ends free" if cord.part in tied else "tie it so that it is just taut at rest"
        what = f"Thread {with_count(cord.name, cord.count)} through {cord.part}; {end}"
        found.append(Joint(name=f"cord: {cord.name}", parts=(cord.part,), stage=TIED, what=what, check=cord.kind))
    for strap in job.straps:
        what = f"Pass {with_count(strap.name, strap.count)} through {with_count(strap.part, counts[strap.part])}"
        found.append(
            Joint(name=f"strap: {strap.name}", parts=(strap.part,), stage=STRAPPED, what=what, check="strapped")
        )
    for padding in job.paddings:
        what = f"Line {padding.part} with its padding, {padding.thickness_mm:g} mm"
        found.append(
            Joint(name=f"padding: {padding.part}", parts=(padding.part,), stage=PADDED, what=what, check="padding")
        )
    return tuple(found)


def _hardware(hardware: Hardware, device: Built, counts: Mapping[str, int], stage: int) -> Joint:
    """Return the joint that a piece of hardware makes."""
    line = device.line(hardware.name)
    seat = hardware.kind in ("nut", "washer", "insert", "bearing")
    parts = listed(names_counted(hardware.joins, counts))
    work = f". First: {line.work}" if line.work else ""
    beside = _beside(device, hardware.name)
    fit = "turning" if hardware.turns else hardware.fit or "sliding"
    threadless = hardware.kind == "dowel-pin" and fit == "sliding"  # nothing to tighten
    return Joint(
        name=f"hardware: {hardware.name}",
        parts=hardware.joins,
        stage=stage,
        what=f"{with_count(hardware.name, hardware.count)} ({bought(line)}) in {parts}{beside}{work}",
        check="seat" if seat else "slid" if threadless else fit,
    )


def _beside(device: Built, name: str) -> str:
    """Return what goes on with a piece: its washers, its free nut, its bushes."""
    beside = [f"{with_count(line.kind, line.count)} {line.size}" for line in device.with_it(name)]
    return f", with {listed(beside)}" if beside else ""

"""The joints of a device: what joins its parts, what to do at each joint, and what must be true afterwards."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from planner.job import Hardware, Job, JointKind
from planner.job import Joint as StatedJoint
from planner.output.bench.piece_words import bought, kind_words, size_words
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.paper_words import with_count
from planner.supplies import Built, HardwareLine

FIRM, TIED, STRAPPED, LATE, PADDED = range(5)
"""Stages: joints that make a firm group; cords; straps; covers and soft parts, which hide the rest; padding."""
HOW_STAGE: dict[JointKind, int] = {"tied": TIED, "strapped": STRAPPED}


def stop_words(check: str, tongue: Tongue = ENGLISH) -> str:
    """Return what must be true before the next step, by a joint's check; common practice, no source."""
    say = tongue.say
    return {
        "turning": say("turns through its full range under its own weight, and does not rattle"),
        "sliding": say("went in by hand, and nothing shifts"),
        "held": say("does not turn or come out by hand"),
        "pilot": say("went in straight; there is no white line and no crack"),
        "seat": say("sits flush and does not turn"),
        "gap": say("moves through its full range and touches nothing"),
        "screwed": say("does not shift when pushed firmly; parts that should turn still turn"),
        "pressed": say("stays on when pulled by hand"),
        "slid": say("slides all the way in without force and does not tilt"),
        "snapped": say("stays on when the device is shaken"),
        "glued": say("has set for the time stated on the glue and does not move"),
        "tied": say("is just taut at rest; the knots hold a firm pull; the ends are 10 mm long and sealed"),
        "strapped": say("lies flat and holds a firm pull"),
        "turns": say("turns through its full range and touches nothing"),
        "slides": say("slides through its full range and does not tilt"),
        "fixed": say("does not shift when pushed firmly"),
        "braided": say("runs freely in both directions over its whole path"),
        "elastic": say("pulls the part all the way back by itself"),
        "padding": say("lies flat, covers every edge, and no metal shows"),
    }[check]


def how_words(how: JointKind, tongue: Tongue = ENGLISH) -> str:
    """Return in a word how two parts are joined."""
    say = tongue.say
    return {
        "screwed": say("screwed"),
        "pressed": say("pressed"),
        "slid": say("slid"),
        "snapped": say("snapped"),
        "glued": say("glued"),
        "tied": say("tied"),
        "strapped": say("strapped"),
        "turns": say("turns"),
        "slides": say("slides"),
        "fixed": say("fixed"),
    }[how]


MOVEMENTS = ("turns", "slides", "fixed")
"""What a joint says of movement, not of how it is put together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Something that joins parts. ``check`` is what ``stop_words`` takes."""

    name: str
    parts: tuple[str, ...]
    stage: int
    what: str
    check: str


def names_counted(parts: Iterable[str], counts: Mapping[str, int], tongue: Tongue = ENGLISH) -> str:
    """Return the names with their counts, as a list in words."""
    return tongue.listed(tongue.kept(with_count(name, counts[name])) for name in parts)


def joints_of(job: Job, device: Built, tongue: Tongue = ENGLISH) -> tuple[Joint, ...]:
    """Return every joint that the job names, hardware first, in the job's order; hardware as it is built."""
    guided = {cord.part for cord in job.cords}
    tied = {name for joint in job.joints if joint.how == "tied" for name in joint.between}
    late = {p.name for p in job.parts if p.judged_duty in ("cover", "soft") and p.name not in guided}
    counts = {part.name: part.count for part in job.parts}
    say, kept = tongue.say, tongue.kept

    def stage(parts: tuple[str, ...]) -> int:
        """Return whether a joint waits for the covers."""
        return LATE if set(parts) & late else FIRM

    found = [_hardware(h, device, counts, stage(h.joins), tongue) for h in job.hardware]
    for joint in job.joints:
        one, other = joint.between
        if joint.how in MOVEMENTS and any({one, other} <= set(h.joins) for h in job.hardware):
            continue  # how they move on the hardware that joins them: no step of its own
        found.append(
            Joint(
                name=f"joint: {joint.copies}",
                parts=joint.between,
                stage=HOW_STAGE.get(joint.how, stage(joint.between)),
                what=_joined(joint, tongue),
                check=joint.how,
            )
        )
    for gap in job.gaps:
        found.append(
            Joint(
                name=f"gap: {gap.between}",
                parts=gap.between,
                stage=stage(gap.between),
                what=say(
                    "Move {part} slowly against {other}, in both directions",
                    part=kept(gap.between[1]),
                    other=kept(gap.between[0]),
                ),
                check="gap",
            )
        )
    for cord in job.cords:
        name, part = kept(with_count(cord.name, cord.count)), kept(cord.part)
        what = (
            say("Thread {cord} through {part}; leave its ends free", cord=name, part=part)
            if cord.part in tied
            else say("Thread {cord} through {part}; tie it so that it is just taut at rest", cord=name, part=part)
        )
        found.append(Joint(name=f"cord: {cord.name}", parts=(cord.part,), stage=TIED, what=what, check=cord.kind))
    for strap in job.straps:
        what = say(
            "Pass {strap} through {part}",
            strap=kept(with_count(strap.name, strap.count)),
            part=kept(with_count(strap.part, counts[strap.part])),
        )
        found.append(
            Joint(name=f"strap: {strap.name}", parts=(strap.part,), stage=STRAPPED, what=what, check="strapped")
        )
    for padding in job.paddings:
        thick = tongue.amount(f"{padding.thickness_mm:g} mm")
        what = say("Line {part} with its padding, {thick}", part=kept(padding.part), thick=thick)
        found.append(
            Joint(name=f"padding: {padding.part}", parts=(padding.part,), stage=PADDED, what=what, check="padding")
        )
    return tuple(found)


def _joined(joint: StatedJoint, tongue: Tongue) -> str:
    """Return how two parts are joined, with the job's note as it was written."""
    one, other = (tongue.kept(name) for name in joint.between)
    told = tongue.say("Join {part} to {other} ({how})", part=other, other=one, how=how_words(joint.how, tongue))
    if not joint.note:
        return told
    return f"{told}: {joint.note}" if tongue.code == "en" else f"{told}{tongue.in_english(joint.note)}"


def _hardware(hardware: Hardware, device: Built, counts: Mapping[str, int], stage: int, tongue: Tongue) -> Joint:
    """Return the joint that a piece of hardware makes; the work that comes first is a finding's, and stays English."""
    line = device.line(hardware.name)
    seat = hardware.kind in ("nut", "washer", "insert", "bearing")
    fit = "turning" if hardware.turns else hardware.fit or "sliding"
    threadless = hardware.kind == "dowel-pin" and fit == "sliding"  # nothing to tighten
    what = _put_in(hardware, line, device, names_counted(hardware.joins, counts, tongue), tongue)
    check = "seat" if seat else "slid" if threadless else fit
    return Joint(
        name=f"hardware: {hardware.name}",
        parts=hardware.joins,
        stage=stage,
        what=_with_orders(what, line.work, tongue, tighten=check == "sliding"),
        check=check,
    )


def _with_orders(what: str, work: str, tongue: Tongue, *, tighten: bool) -> str:
    """Return a step with what is done first, and how far it is tightened."""

    def tight(t: Tongue) -> list[str]:
        return [t.say("Tighten until nothing shifts; stop before the plastic gives way")] if tighten else []

    first = [f"First: {work}"] if work else []
    if tongue.code == "en":
        return ". ".join([what, *first, *tight(tongue)])
    english = [*first, *(tight(ENGLISH) if tongue.keeps_english else [])]
    return ". ".join([what, *tight(tongue)]) + tongue.in_english(". ".join(english))


def _put_in(hardware: Hardware, line: HardwareLine, device: Built, parts: str, tongue: Tongue) -> str:
    """Return which piece goes into which parts, with what goes on with it: its washers, its free nut, its bushes."""
    name, size = tongue.kept(with_count(hardware.name, hardware.count)), bought(line, tongue)
    beside = tongue.listed(_counted(one, tongue) for one in device.with_it(hardware.name))
    if not device.with_it(hardware.name):
        return tongue.say("{piece} ({size}) in {parts}", piece=name, size=size, parts=parts)
    return tongue.say("{piece} ({size}) in {parts}, with {list}", piece=name, size=size, parts=parts, list=beside)


def _counted(line: HardwareLine, tongue: Tongue) -> str:
    """Return a kind of piece with its count and size; how a bush is bored is told in English, on the list of bags."""
    kind = with_count(kind_words(line.kind, tongue), line.count)
    return kind if line.kind == "bush" and tongue.code != "en" else f"{kind} {size_words(line, tongue)}"

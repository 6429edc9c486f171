"""Slots that webbing may go through, told by their length, width and depth, and what may be answered about them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from planner.assembly.doubts.answer_edits import Answer
from planner.assembly.doubts.duty_form import usual_wall_mm
from planner.job import Job, LeftOpen, Strap
from planner.survey import Slot, Survey

WIDTH_MM = (1.6, 8.0)
"""Slots for webbing are this wide: common practice, no source."""
DEEP_MOST_MM = 6.5
ROOM_SHARE, ROOM_MM = 0.12, 1.0
"""A slot is drawn longer than its webbing by up to so much; common practice, no source."""
THIN_MM = 2.0
"""Several slots in a wall thinner than this are vents."""
STRAP, VENT = 0.75, 0.2
"""How likely webbing goes through a slot of that form, and through one in a thin cover."""
SAME_MM = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotGroup:
    """Slots of one length: part and index of each, and what may be answered, likeliest first."""

    size_mm: float
    members: tuple[tuple[str, int], ...]
    answers: tuple[Answer, ...]

    @property
    def id(self) -> str:
        """Stable and readable: ``slots-26``."""
        return f"slots-{self.size_mm:g}"

    @property
    def through(self) -> bool:
        """A slot goes through."""
        return True

    @property
    def features(self) -> tuple[tuple[str, str], ...]:
        """Part and slot of all of them."""
        return tuple((name, f"slot {index + 1}") for name, index in self.members)

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts that have them."""
        return tuple(dict.fromkeys(name for name, _ in self.members))


def slot_groups(job: Job, surveys: Mapping[str, Survey]) -> list[SlotGroup]:
    """Return the slots that webbing may go through, those of one length together."""
    groups: dict[float, list[tuple[str, int, Slot]]] = defaultdict(list)
    spoken = _stated(job)
    for part in job.parts:
        for index, slot in enumerate(surveys[part.name].slots):
            taken = any(abs(mm - slot.length_mm) < SAME_MM for mm in spoken.get(part.name, ()))
            if not taken and webbing_for(slot, job) is not None:
                groups[round(slot.length_mm, 1)].append((part.name, index, slot))
    return [_group(job, surveys, length, members) for length, members in sorted(groups.items())]


def webbing_for(slot: Slot, job: Job) -> float | None:
    """Return the stock webbing that a slot is drawn for; None where it is no strap slot by form."""
    if not WIDTH_MM[0] <= slot.width_mm <= WIDTH_MM[1] or slot.depth_mm > DEEP_MOST_MM:
        return None
    fits = (w for w in job.tables.webbing_mm if 0.0 <= slot.length_mm - w <= ROOM_MM + ROOM_SHARE * w)
    return next(fits, None)


def _group(job: Job, surveys: Mapping[str, Survey], length: float, members: list[tuple[str, int, Slot]]) -> SlotGroup:
    """Return one group of slots with its answers."""
    webbing = webbing_for(members[0][2], job)
    assert webbing is not None
    parts = tuple(dict.fromkeys(name for name, _, _ in members))
    vents = all(usual_wall_mm(surveys[name]) < THIN_MM for name in parts) and len(members) > len(parts)
    share = VENT if vents else STRAP
    answers = [
        Answer(
            name=f"{webbing:g}mm-strap",
            text=f"webbing of {webbing:g} mm goes through",
            weight_factor=share,
            straps=tuple(
                Strap(name=f"strap of {part}", part=part, webbing_mm=webbing, slot_mm=length) for part in parts
            ),
        ),
        Answer(
            name="nothing",
            text="nothing goes through",
            weight_factor=1.0 - share,
            left_open=(LeftOpen(name=f"slots of {length:g} mm", parts=parts, slot_mm=length),),
        ),
    ]
    return SlotGroup(
        size_mm=length,
        members=tuple((name, index) for name, index, _ in members),
        answers=tuple(sorted(answers, key=lambda answer: -answer.weight_factor)),
    )


def _stated(job: Job) -> dict[str, list[float]]:
    """Return the slot lengths that a person has spoken of, by part."""
    found: dict[str, list[float]] = defaultdict(list)
    for strap in job.straps:
        if not strap.guessed:
            found[strap.part].append(strap.slot_mm or strap.webbing_mm + ROOM_MM)
    for one in job.left_open:
        if not one.guessed and one.slot_mm is not None:
            for part in one.parts:
                found[part].append(one.slot_mm)
    return found

"""A failure as a person tells it, and whether the plan holds what is told."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.errors import CommandError, nearest
from planner.job import read_failure_rules
from planner.packing import Plate, counted
from planner.phrases import listed
from planner.plan.plan_record import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Failure:
    """What a person tells about a failed plate; ``lost`` counts pieces by part, and is empty where nobody said."""

    plate: int
    at_s: float
    cause: str
    lost: Mapping[str, int]
    leaves_out: bool = False


def failed_plate(plan: Plan, failure: Failure) -> Plate:
    """Return the plate that failed.

    Raises
    ------
    CommandError
        Where the plate, the cause, the pieces or the time are not in the plan.
    """
    numbers = [plate.number for plate in plan.plates]
    plate = next((p for p in plan.plates if p.number == failure.plate), None)
    if plate is None:
        told = f"1 to {max(numbers)}" if numbers else "none"
        raise CommandError(where="--failed", wrong=f"there is no plate {failure.plate}", todo=f"the plan has {told}")
    rules = read_failure_rules()
    if failure.cause not in rules:
        raise CommandError(where="--cause", wrong=f"'{failure.cause}' is not known", todo=nearest(failure.cause, rules))
    counts = counted(plate.placements)
    for part, n in failure.lost.items():
        if part not in counts:
            wrong = f"no '{part}' lies on plate {plate.number}"
            raise CommandError(where="--lost", wrong=wrong, todo=_elsewhere(plan, part) or nearest(part, counts))
        if n > counts[part]:
            wrong = f"{n} of {part} cannot be lost"
            raise CommandError(where="--lost", wrong=wrong, todo=f"plate {plate.number} holds {counts[part]}")
    longest = plate.duration_s.high
    if not 0.0 <= failure.at_s <= longest:
        wrong = f"{failure.at_s / 3600:.1f} h is too long, plate {plate.number} takes {longest / 3600:.1f} h at most"
        raise CommandError(where="--at", wrong=wrong, todo=_so_long(plan, failure.at_s))
    return plate


def _elsewhere(plan: Plan, part: str) -> str:
    """Return which plates hold a part, for whoever named another plate; empty where none does."""
    on = [plate for plate in plan.plates if any(p.part == part for p in plate.placements)]
    told = listed(f"plate {plate.number} ({plate.duration_s.value / 3600:.1f} h)" for plate in on)
    return f"it lies on {told}: write --failed {on[0].number}" if on else ""


def _so_long(plan: Plan, at_s: float) -> str:
    """Return which plates take that long, for whoever named the wrong plate or time."""
    long = [str(plate.number) for plate in plan.plates if plate.duration_s.high >= at_s]
    if not long:
        return "no plate takes that long; correct --at"
    who = f"plates {listed(long)} take" if len(long) > 1 else f"plate {long[0]} takes"
    return f"{who} that long; correct --failed or --at"

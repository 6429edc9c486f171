"""The doubts of a job: what nobody stated, in at most eight questions for a device of a dozen parts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from planner.assembly.claim import USUAL_FIT
from planner.assembly.doubts.bore_doubts import bore_doubts
from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.duty_doubts import duty_doubts
from planner.assembly.doubts.mates.between_doubts import between_doubts
from planner.assembly.doubts.mates.count_doubts import count_doubts
from planner.assembly.doubts.printer_doubt import printer_doubt
from planner.assembly.doubts.size_doubts import gap_doubts, governing_doubt, unit_doubt
from planner.assembly.pegs.close_faces import CloseFit
from planner.job import Edit, Fit, Hardware, Job
from planner.survey import Survey

DOUBTS_MOST, DUTY_SHARE = 8, 40
"""Questions at most, and how many percent of them ask for duties."""
FIT_CLAUSES: Mapping[Fit, tuple[str, str]] = {
    "sliding": ("slides in", "slide in"),
    "turning": ("turns in its bores", "turn in their bores"),
    "held": ("is held tight", "are held tight"),
    "pilot": ("cuts its own thread", "cut their own thread"),
}
"""What an answer says of one piece of hardware, and of several, after its name."""
USUAL_SHARE = 0.7
"""How often the usual fit of a kind is meant; common practice, no source."""


def doubts_of(
    job: Job, surveys: Mapping[str, Survey], most: int = DOUBTS_MOST, close: Sequence[CloseFit] = ()
) -> tuple[Doubt, ...]:
    """Return every question that the job leaves open and that one answer closes.

    Of duties, one a form; of fits, one a kind of hardware; of bores and slots, one a size, the rarest together. Where
    the unit is open, nothing else is asked: no size means anything yet. ``close`` are the parts drawn between faces of
    others.
    """
    unit = unit_doubt(job, surveys)
    if unit is not None:
        return (unit,)
    governing = governing_doubt(job)
    first = (*([governing] if governing else []), *duty_doubts(job, surveys, max(1, most * DUTY_SHARE // 100)))
    fits = [*_fits(job), *gap_doubts(job), *between_doubts(job, close, most)]
    found = (*first, *fits, *bore_doubts(job, surveys, most - len(first) - len(fits)))
    found = (*found, *count_doubts(job, surveys)[: max(0, most - len(found))])
    printer = printer_doubt(job, surveys)
    return (*found, printer) if printer is not None and len(found) < most else found


def _fits(job: Job) -> list[Doubt]:
    """Return one doubt for all hardware of one kind that a person named without its fit."""
    kinds: dict[str, list[Hardware]] = defaultdict(list)
    for one in job.hardware:
        if one.fit is None and one.kind in USUAL_FIT and not one.guessed:
            kinds[one.kind].append(one)
    return [_fit_doubt(kind, pieces) for kind, pieces in kinds.items()]


def _fit_doubt(kind: str, pieces: list[Hardware]) -> Doubt:
    """Return the doubt about the fit of one kind of hardware."""
    usual = USUAL_FIT[kind]
    fits = [fit for fit in FIT_CLAUSES if fit != "pilot" or kind.endswith("screw")]
    names = ", ".join(piece.name for piece in pieces)
    subject, many = (names, False) if len(pieces) == 1 else (f"the {kind.replace('-', ' ')}s", True)
    options = tuple(
        Option(
            name=fit,
            text=f"{subject} {FIT_CLAUSES[fit][many]}",
            edits=tuple(Edit(table="hardware", name=piece.name, put={"fit": fit}) for piece in pieces),
            share=round(USUAL_SHARE if fit == usual else (1.0 - USUAL_SHARE) / (len(fits) - 1), 2),
        )
        for fit in sorted(fits, key=lambda fit: fit != usual)
    )
    return Doubt(
        id=f"fit-{kind}",
        text=f"How does {names} sit in its bores?"
        if len(pieces) == 1
        else f"How do these sit in their bores: {names}?",
        options=options,
        default=usual,
        features=tuple((part, "") for part in dict.fromkeys(part for piece in pieces for part in piece.joins)),
    )


def by_weight(doubts: Sequence[Doubt], settles: Mapping[str, int]) -> tuple[Doubt, ...]:
    """Return doubts in the order of how many findings they settle, most first; those that tie stay as they were."""
    return tuple(sorted(doubts, key=lambda doubt: -settles.get(doubt.id, 0)))

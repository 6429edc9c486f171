"""Doubts about how many pieces of hardware there are, where bores of parts that do not stand in place leave it open."""

from __future__ import annotations

from collections.abc import Mapping

from planner.assembly.bore_axes import axes_of
from planner.assembly.claim import claims_of
from planner.assembly.doubts.doubt import Doubt, Option
from planner.assembly.doubts.spoken_bores import DOUBTFUL
from planner.job import Edit, Hardware, Job
from planner.survey import Survey

WRITTEN_SHARE = 0.5
"""How often the count that form tells is meant; common practice, no source."""


def count_doubts(job: Job, surveys: Mapping[str, Survey]) -> list[Doubt]:
    """Return one question for each kind of hardware that a person named, and whose count is only told by form."""
    open_ones = [one for one in job.hardware if "count" in one.guessed and not DOUBTFUL & set(one.guessed)]
    found = [_count_doubt(job, surveys, one) for one in open_ones]
    return [one for one in found if one is not None]


def _count_doubt(job: Job, surveys: Mapping[str, Survey], piece: Hardware) -> Doubt | None:
    """Return the question for one; None where its bores tell one number."""
    mine = [claim for claim in claims_of(job, surveys).claims if claim.hardware.name == piece.name]
    bored = {name: [claim.bore for claim in mine if claim.part == name] for name in piece.joins}
    axes = {name: len(axes_of(bores)) * job.part(name).count for name, bores in bored.items() if bores}
    if not axes:
        return None
    least, most = max(axes.values()), sum(axes.values())
    told = {least: "each goes through all its parts", most: "one goes through each bore"}
    if most % 2 == 0 and least < most // 2:
        told[most // 2] = "each joins two parts"
    counts = sorted({piece.count, *told}, key=lambda n: (n != piece.count, n))
    if len(counts) == 1:
        return None
    other = (1.0 - WRITTEN_SHARE) / (len(counts) - 1)
    return Doubt(
        id=f"count-{piece.name.replace(' ', '-')}",
        text=f"How many pieces of {piece.name} has one device? Its bores take {least} to {most}.",
        options=tuple(
            Option(
                name=str(n),
                text=f"there are {n} of {piece.name}" + (f" ({told[n]})" if n in told else ""),
                edits=(Edit(table="hardware", name=piece.name, put={"count": n}),),
                share=round(WRITTEN_SHARE if n == piece.count else other, 2),
            )
            for n in counts
        ),
        default=str(piece.count),
        features=tuple((claim.part, claim.bore.id) for claim in mine),
    )

"""Ways that change the mesh: openings put back to hardware size, and why no part is cut in two here."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.assembly import claims_of
from planner.job import Edit
from planner.rebore import Change, rebored
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.rule_answers import Again, Stand
from planner.scale import Scale

NAMED_MOST = 3
"""So many openings are named in the text; the rest are counted."""


def rebored_part(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield re-boring the part of a group: all its openings with hardware, at the job's size."""
    part = stand.job.part(group.part)
    text, why = f"re-bore {part.name} in the mesh", ""
    if part.rebore:
        why = "it is re-bored already"
    elif isinstance(part.scale_percent, tuple):
        why = "it is scaled unevenly"
    elif part.name not in stand.solids:
        why = "its mesh is not at hand"
    if why:
        yield Candidate(kind="rebore", text=text, part=part.name, why_not=why)
        return
    changes = stand.once(f"rebore {part.name}", lambda: _changes(stand, part.name))
    asked = [c for c in changes if {c.feature, f"{c.kind} {c.hardware}"} & set(group.features)]
    done = [change for change in changes if not change.kept]
    if not asked:
        return  # nothing is named that would go through
    if all(change.kept for change in asked):
        why = "; ".join(dict.fromkeys(f"{change.feature}: {change.kept}" for change in asked))
    yield Candidate(
        kind="rebore",
        text=text if why else f"{text} ({_sizes(done, asked)}): print what plan writes, not the file",
        part=part.name,
        does=(Edit(table="part", name=part.name, put={"rebore": True}),),
        why_not=why,
    )


def in_two(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  a way has three
    """Yield the refusal of cutting a part in two: nothing here cuts it, or proves a joint that would hold it."""
    yield Candidate(
        kind="split",
        text=f"print {group.part} in two pieces",
        part=group.part,
        why_not="no such joint could be proved here: divide it in the drawing where its load is least, "
        "with pins or screws across the joint, and name both pieces as parts",
    )


def _changes(stand: Stand, name: str) -> list[Change]:
    """Return what re-boring changes in a part at the job's size, or leaves and why."""
    job, downs = stand.job, stand.downs
    claims = claims_of(job, stand.surveys).claims
    alone = replace(job, parts=(job.part(name),))
    made = rebored(alone, stand.solids, stand.surveys, claims, downs, Scale(stand.percent).factor)
    return list(made.changes)


def _sizes(done: list[Change], asked: list[Change]) -> str:
    """Say what openings measure in the mesh then, those that were asked for first."""
    first = [change for change in done if change in asked]
    ordered = [*first, *(change for change in done if change not in first)]
    told = [
        f"a boss round {c.feature}" if c.kind == "boss" else f"{c.feature} {c.before_mm:.2f} to {c.after_mm:.2f} mm"
        for c in ordered[:NAMED_MOST]
    ]
    more = len(ordered) - len(told)
    return ", ".join([*told, *([f"{more} more"] if more else [])])

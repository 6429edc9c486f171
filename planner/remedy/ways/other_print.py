"""Another way to print: another pose, another material or printer."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path

from planner.job import Edit, Job, Printer, read_printer, shipped_names, with_edits
from planner.pose import toward
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.rule_answers import Again, Stand
from planner.remedy.ways.other_settings import also, edits_of, suiting
from planner.remedy.ways.stronger_part import laid_stronger, refused_material


def other_pose(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield every other resting pose of the part, lowest first; a pose that the job states binds and is not changed.

    Where the part breaks, those come first in which its load tears the layers least.
    """
    if group.kind.gives == "strength":
        yield from laid_stronger(stand, group)
        return
    if stand.job.part(group.part).pose is not None:
        yield Candidate(
            kind="pose", text=f"lay {group.part} another way", part=group.part, why_not="the job states its pose"
        )
        return
    for pose in sorted(stand.surveys[group.part].poses, key=lambda pose: pose.height_mm):
        if pose.down != stand.downs[group.part]:
            down = [round(value, 6) + 0.0 for value in pose.down]
            yield Candidate(
                kind="pose",
                text=f"lay {group.part} with {toward(pose.down)} down",
                part=group.part,
                does=(Edit(table="part", name=group.part, put={"pose": down}),),
            )


def other_material(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the other materials, those at hand first, each with the settings that it asks for.

    One that splits in the open comes on the job's own printer first, then, after all others, on each closed one.
    """
    job, have = stand.job, dict.fromkeys(spool.material for spool in stand.job.spools)
    own = job.material.name if job.material else ""
    closed: list[Candidate] = []
    for name in (*have, *(each for each in shipped_names("materials") if each not in have)):
        if name == own:
            continue
        changed = with_edits(job, (Edit(table="job", put={"material": name}),))
        why = refused_material(stand, group, changed) if group.kind.gives == "strength" else ""
        if why:
            yield Candidate(kind="material", text=f"print in {name}", why_not=why)
            continue
        yield _printed_otherwise(stand, f"print in {name}", changed, {"material": name})
        if changed.material and changed.material.needs_enclosure and not job.printer.enclosed:
            for printer in _by_bed():
                if printer.enclosed:
                    put = {"material": name, "printer": printer.name}
                    there = replace(changed, printer=printer, nozzle_mm=None)
                    closed.append(_printed_otherwise(stand, f"print in {name} on {_called(printer)}", there, put))
    yield from closed


def other_printer(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the other printers that are known, smallest bed first, each with the settings that it asks for."""
    for printer in _by_bed():
        if printer.name != stand.job.printer.name:
            changed = replace(stand.job, printer=printer, nozzle_mm=None)
            found = _printed_otherwise(stand, f"print on {_called(printer)}", changed, {"printer": printer.name})
            yield replace(found, kind="printer")


def _by_bed() -> list[Printer]:
    """Return the printers that are known, smallest bed first."""
    return sorted(
        (read_printer(name, Path()) for name in shipped_names("printers")),
        key=lambda each: math.prod(each.bed.usable_mm),
    )


def _called(printer: Printer) -> str:
    """Return a printer with what it is."""
    return f"{printer.name} ({printer.about})"


def _printed_otherwise(stand: Stand, text: str, changed: Job, put: Mapping[str, str]) -> Candidate:
    """Return a job's material or printer changed, with the settings that the new one asks for."""
    changes = suiting(stand, changed)
    edit = Edit(table="job", put=dict(put), without=("nozzle_mm",) if "printer" in put else ())
    return Candidate(kind="material", text=also(text, changes), does=(edit, *edits_of(changes)))

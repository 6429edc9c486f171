"""Another way to print: another pose, another material or printer."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from planner.job import Edit, read_printer, shipped_names, with_edits
from planner.pose import toward
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.standing import Again, Stand
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
    """Yield the other materials, those at hand first, each with the settings that it asks for."""
    breaks = group.kind.gives == "strength"
    job, have = stand.job, dict.fromkeys(spool.material for spool in stand.job.spools)
    own = job.material.name if job.material else ""
    for name in (*have, *(each for each in shipped_names("materials") if each not in have)):
        if name != own:
            edit = Edit(table="job", put={"material": name})
            changed = with_edits(job, (edit,))
            why = refused_material(stand, group, changed) if breaks else ""
            if why:
                yield Candidate(kind="material", text=f"print in {name}", why_not=why)
                continue
            changes = suiting(stand, replace(job, material=changed.material, materials=changed.materials))
            yield Candidate(kind="material", text=also(f"print in {name}", changes), does=(edit, *edits_of(changes)))


def other_printer(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the other printers that are known, smallest bed first, each with the settings that it asks for."""
    printers = [read_printer(name, Path()) for name in shipped_names("printers")]
    for printer in sorted(printers, key=lambda each: math.prod(each.bed.usable_mm)):
        if printer.name != stand.job.printer.name:
            changes = suiting(stand, replace(stand.job, printer=printer, nozzle_mm=None))
            yield Candidate(
                kind="printer",
                text=also(f"print on {printer.name} ({printer.about})", changes),
                does=(
                    Edit(table="job", put={"printer": printer.name}, without=("nozzle_mm",)),
                    *edits_of(changes),
                ),
            )

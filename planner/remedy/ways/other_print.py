"""Another way to print: another pose, narrower lines, another material or printer."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

from planner.job import Edit, read_printer, shipped_names
from planner.pose import toward
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.standing import Again, Stand

LINE_STEP_MM = 0.01
LINE_LEAST_SHARE = 1.0
"""A line is not laid narrower than the nozzle; common practice, no source. The settings rules judge it once more."""


def other_pose(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield every other resting pose of the part, lowest first; a pose that the job states binds and is not changed."""
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


def narrower_lines(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield lines just narrow enough that as many as are needed lie side by side in what is there."""
    width = stand.job.settings.line_width_mm.value
    shares = [f.measured / f.limit for f in group.findings if f.measured is not None and f.limit]
    if not shares:
        return
    narrow = math.floor(width * min(shares) / LINE_STEP_MM + 1e-6) * LINE_STEP_MM
    text = f"print with lines of {narrow:.2f} mm instead of {width:g} mm"
    nozzle = stand.job.printer.nozzle_mm.value
    why = "" if narrow >= LINE_LEAST_SHARE * nozzle else f"the nozzle of {nozzle:g} mm lays none so narrow"
    edit = Edit(table="settings", put={"line_width_mm": round(narrow, 2)})
    yield Candidate(kind="settings", text=text, does=(edit,), why_not=why)


def other_material(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the other materials, those at hand first."""
    have = dict.fromkeys(spool.material for spool in stand.job.spools)
    own = stand.job.material.name if stand.job.material else ""
    for name in (*have, *(each for each in shipped_names("materials") if each not in have)):
        if name != own:
            yield Candidate(kind="material", text=f"print in {name}", does=(Edit(table="job", put={"material": name}),))


def other_printer(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield the other printers that are known, smallest bed first."""
    printers = [read_printer(name, Path()) for name in shipped_names("printers")]
    for printer in sorted(printers, key=lambda each: math.prod(each.bed.usable_mm)):
        if printer.name != stand.job.printer.name:
            yield Candidate(
                kind="printer",
                text=f"print on {printer.name} ({printer.about})",
                does=(Edit(table="job", put={"printer": printer.name}),),
            )

"""The doubt which printer prints a device, where nobody stated one and a part may be too large for the usual bed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from planner.assembly.doubts.doubt import Doubt, Option
from planner.job import PRINTER_ASKED, Bed, Edit, Job, read_printer, shipped_names
from planner.survey import Survey

USUAL_SHARE = 0.5
"""How often a printer has the bed that is taken where nobody states one; common practice, no source."""


def printer_doubt(job: Job, surveys: Mapping[str, Survey]) -> Doubt | None:
    """Return the question for the printer; None where one is stated, or where every part is small for its bed."""
    if "printer" not in job.guessed_keys:
        return None
    percent = job.size.percent or 100.0
    room_mm = min(*job.printer.bed.usable_mm, job.printer.bed.height_mm)
    large = [name for name, survey in surveys.items() if max(survey.size_mm) * percent / 100.0 > room_mm]
    if not large:
        return None
    names = sorted(shipped_names("printers"), key=lambda name: name != job.printer.name)
    return Doubt(
        id=PRINTER_ASKED,
        text=f"Which printer prints it? Nobody has stated one; {job.printer.name} is assumed.",
        options=tuple(
            Option(
                name=name,
                text=f"it is printed on {_bed(read_printer(name, Path()).bed)}, as {name} has",
                edits=(Edit(table="job", put={"printer": name}),),
                share=USUAL_SHARE if name == job.printer.name else round((1.0 - USUAL_SHARE) / (len(names) - 1), 2),
            )
            for name in names
        ),
        default=names[0],
        features=tuple((name, "bed") for name in large),
        by_rule=True,
    )


def _bed(bed: Bed) -> str:
    """Name a bed."""
    width, depth = bed.size_mm
    return f"a round bed of {width:g} mm" if bed.shape == "circle" else f"a bed of {width:g} x {depth:g} mm"

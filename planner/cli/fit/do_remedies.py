"""Write remedies into a job, by their numbers."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner.errors import CommandError
from planner.job import Edit, Job, write_edits
from planner.remedy import Remedies


def done(
    job: Job,
    remedies: Remedies,
    numbers: Sequence[int],
    target: Path | None,
    *,
    percent: float | None = None,
    printer: str | None = None,
    material: str | None = None,
    unit: str | None = None,
) -> Path:
    """Write remedies into a job file and return its path; what options replaced is written too, before the remedies.

    Raises
    ------
    CommandError
        Where there is no remedy of a number, or a folder of meshes has a job file already.
    """
    edits = _of_options(percent, printer, material, unit)
    for n in dict.fromkeys(numbers):
        remedy = remedies.numbered(n)
        if remedy is None:
            last = len(remedies.found)
            todo = f"there are remedies 1 to {last}" if last else "there are none: run the check without --do"
            raise CommandError(where=f"--do {n}", wrong="there is no such remedy", todo=todo)
        edits += remedy.does
    told = ", ".join(str(n) for n in dict.fromkeys(numbers))
    return write_edits(job, edits, f"remedy {told} of fitwright check", target)


def _of_options(percent: float | None, printer: str | None, material: str | None, unit: str | None) -> list[Edit]:
    """Return the edits that write what options replaced: the remedies were proved with it."""
    head = {"printer": printer, "material": material, "mesh_unit": unit}
    put: dict[str, str] = {key: value for key, value in head.items() if value is not None}
    fitted = () if printer is None else ("nozzle_mm",)  # the nozzle of the job is that of its own printer
    edits = [Edit(table="job", put=put, without=fitted)] if put else []
    return edits if percent is None else [*edits, Edit(table="size", put={"percent": percent})]

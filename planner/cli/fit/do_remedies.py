"""Write remedies into a job, by their numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.errors import CommandError
from planner.job import Edit, Job, write_edits
from planner.phrases import listed
from planner.remedy import Remedies


@dataclass(frozen=True, slots=True, kw_only=True)
class Replaced:
    """What options of the command replaced in the job: the remedies were proved with it, so it is written too."""

    percent: float | None = None
    printer: str | None = None
    material: str | None = None
    unit: str | None = None


def done(
    job: Job, remedies: Remedies, numbers: Sequence[int], target: Path | None, *, by: str, replaced: Replaced
) -> Path:
    """Write remedies into a job file and return its path; ``by`` is the command that showed them.

    Raises
    ------
    CommandError
        Where there is no remedy of a number, or a folder of meshes has a job file already.
    """
    edits = _of_options(replaced)
    for n in dict.fromkeys(numbers):
        remedy = remedies.numbered(n)
        if remedy is None:
            last = len(remedies.found)
            todo = f"there are remedies 1 to {last}" if last else f"there are none: run the {by} without --do"
            raise CommandError(where=f"--do {n}", wrong="there is no such remedy", todo=todo)
        edits += remedy.does
    return write_edits(job, edits, f"{named_remedies(numbers)} of fitwright {by}", target)


def named_remedies(numbers: Sequence[int]) -> str:
    """Return which remedies are meant.

    >>> named_remedies([3, 1, 3])
    'remedies 3 and 1'
    """
    told = list(dict.fromkeys(numbers))
    return f"remed{'y' if len(told) == 1 else 'ies'} {listed(map(str, told))}"


def _of_options(replaced: Replaced) -> list[Edit]:
    """Return the edits that write what options replaced."""
    head = {"printer": replaced.printer, "material": replaced.material, "mesh_unit": replaced.unit}
    put: dict[str, str] = {key: value for key, value in head.items() if value is not None}
    fitted = () if replaced.printer is None else ("nozzle_mm",)  # the nozzle of the job is that of its own printer
    edits = [Edit(table="job", put=put, without=fitted)] if put else []
    if replaced.percent is not None:
        edits.append(Edit(table="size", put={"percent": replaced.percent}))
    return edits

"""``fitwright inspect``: what meshes measure, without a job."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption, UnitOption, WorkersOption


def inspect(
    meshes: Annotated[list[Path], typer.Argument(help="Mesh files: STL, 3MF, OBJ or PLY.")],
    unit: UnitOption = None,
    workers: WorkersOption = "",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Measure mesh files as drawn: size, volume, walls, bores and slots.

    Examples: `fitwright inspect jaw.stl`, `fitwright inspect plate.stl --unit inch --json -`,
    `fitwright inspect meshes/*.stl --workers 4`
    """
    from planner.cores import on_workers
    from planner.job import read_limits
    from planner.mesh import read_solid
    from planner.output import Out, inspect_json, show_mesh
    from planner.survey import survey, survey_ahead

    out = Out(json_path=json, quiet=quiet)
    surveys = []
    with out.progress() as progress:
        solids = [read_solid(path, unit=unit) for path in meshes]
        with on_workers(workers):
            survey_ahead(solids)
        for index, (path, solid) in enumerate(zip(meshes, solids, strict=True)):
            progress(f"measuring {path.name}", index / len(meshes))
            surveys.append((path, survey(solid)))
    limits = read_limits()
    doubts = [
        f"{path.name}: {reason}"
        for path, found in surveys
        for reason in (
            found.unit_doubt,
            *found.faults,
            _implausible(max(found.size_mm), limits.unit_least_mm.value, limits.unit_most_mm.value, found.unit),
        )
        if reason
    ]
    out.emit(inspect_json(surveys, doubts))
    for path, found in surveys:
        show_mesh(out.console, path, found)
    for doubt in doubts:
        out.console.print(f"HOLD  {doubt}", markup=False)
    raise typer.Exit(1 if doubts else 0)


def _implausible(longest_mm: float, least_mm: float, most_mm: float, unit: str) -> str:
    """Return why a size is implausible for its unit, or nothing."""
    if least_mm <= longest_mm <= most_mm:
        return ""
    return (
        f"read in {unit}, it is {longest_mm:.4g} mm long; {least_mm:g} to {most_mm:g} mm is usual: "
        "add --unit mm, cm, m or inch"
    )

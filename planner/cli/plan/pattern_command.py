"""``fitwright pattern``: padding of the side on the skin, laid flat, and bucks to form it on."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JobArgument, JsonOption, PaperChoice, PaperOption, QuietOption, ScaleOption, UnitOption


def pattern(
    job: JobArgument,
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for the patterns.")] = Path(
        "patterns"
    ),
    scale: ScaleOption = None,
    paper: PaperOption = PaperChoice.a4,
    unit: UnitOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write a pattern for every piece of padding, and a buck to form it on, at size.

    The side on the skin is the inside of a shell, or the side that faces `skin_toward`. It is laid flat in the middle
    of the padding: exactly where it is plane or part of a cylinder or cone, else with the least stretch, which is told.
    SVG and DXF for cutters, one PDF at 1 : 1, the bucks as STL. Hot plastic is formed on a buck, never on the person.

    Example: `fitwright pattern job.toml -o patterns`
    """
    from planner.cli.load_job import load
    from planner.finding import worst
    from planner.output import SIZES, Out, pattern_json, pattern_lines, show_lines, write_patterns
    from planner.plan import padding_patterns

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        found = padding_patterns(load(job, percent=scale, unit=unit), date.today(), progress)
        pdf, files = write_patterns(found, out_dir, SIZES[paper.value])
    out.emit(pattern_json(found, pdf, files))
    show_lines(out.console, pattern_lines(found, pdf, files))
    raise typer.Exit(0 if worst(found.findings).passes else 1)

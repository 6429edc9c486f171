"""Options that several commands share, with their help."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer


class PaperChoice(StrEnum):
    """Sizes of paper, as people type them."""

    a4 = "a4"
    letter = "letter"


JobArgument = Annotated[Path, typer.Argument(help="A job.toml, or a folder of meshes to guess a job from.")]
JsonOption = Annotated[
    str,
    typer.Option(
        "--json", metavar="PATH", help="Write the result as JSON; `-` for stdout, which then carries JSON only."
    ),
]
QuietOption = Annotated[bool, typer.Option("--quiet", "-q", help="Print nothing but errors.")]
ScaleOption = Annotated[
    float | None, typer.Option("--scale", metavar="PERCENT", help="Try another scale than the job's, in percent.")
]
PrinterOption = Annotated[
    str | None, typer.Option("--printer", metavar="NAME", help="Another printer: a shipped name, or a profile's path.")
]
MaterialOption = Annotated[
    str | None,
    typer.Option("--material", metavar="NAME", help="Another material: a shipped name, or a profile's path."),
]
AllOption = Annotated[bool, typer.Option("--all", help="Also show what passes.")]
UnitOption = Annotated[
    str | None, typer.Option("--unit", metavar="UNIT", help="Unit of mesh files that name none: mm, cm, m or inch.")
]
PaperOption = Annotated[PaperChoice, typer.Option("--paper", help="Size of the papers for the bench.")]

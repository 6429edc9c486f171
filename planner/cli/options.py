"""Options that several commands share, with their help."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from planner.job import Language


class PaperChoice(StrEnum):
    """Sizes of paper, as people type them."""

    a4 = "a4"
    letter = "letter"


class LanguageChoice(StrEnum):
    """Languages of the papers that a family reads, by ISO 639-1, as people type them."""

    en = "en"
    de = "de"
    es = "es"
    fr = "fr"
    pt = "pt"
    ar = "ar"
    hi = "hi"


def spoken(choice: LanguageChoice | None) -> Language | None:
    """Return the language that was typed, as a job names it; None where none was."""
    return None if choice is None else choice.value


JobArgument = Annotated[Path, typer.Argument(help="A job.toml, or a folder of meshes from which a job is guessed.")]
JsonOption = Annotated[
    str,
    typer.Option("--json", metavar="PATH", help="Write the result as JSON; `-` writes it to stdout and nothing else."),
]
QuietOption = Annotated[bool, typer.Option("--quiet", "-q", help="Print errors only.")]
ScaleOption = Annotated[
    float | None, typer.Option("--scale", metavar="PERCENT", help="Try a scale other than the job's, in percent.")
]
PrinterOption = Annotated[
    str | None, typer.Option("--printer", metavar="NAME", help="Another printer: a shipped name, or a profile's path.")
]
MaterialOption = Annotated[
    str | None,
    typer.Option("--material", metavar="NAME", help="Another material: a shipped name, or a profile's path."),
]
AllOption = Annotated[bool, typer.Option("--all", help="Also show the checks that pass.")]
DoOption = Annotated[
    list[int] | None,
    typer.Option("--do", metavar="N", help="Write remedy N into the job; may be given several times."),
]
IntoOption = Annotated[
    Path | None,
    typer.Option("-o", "--out", metavar="NEW.toml", help="With --do: write a new job file, and leave the old one."),
]
NewJobOption = Annotated[
    Path | None,
    typer.Option("--into", metavar="NEW.toml", help="With --do: write a new job file, and leave the old one."),
]
PartOption = Annotated[str, typer.Option("--part", metavar="NAME", help="Show all that is said of one part.")]
UnitOption = Annotated[
    str | None, typer.Option("--unit", metavar="UNIT", help="Unit of mesh files that state none: mm, cm, m or inch.")
]
PaperOption = Annotated[PaperChoice, typer.Option("--paper", help="Paper size of the bench papers.")]
LanguageOption = Annotated[
    LanguageChoice | None,
    typer.Option("--language", help="Language of the papers instead of the job's; the record stays English."),
]


def _workers(where: str) -> str:
    """Refuse what names no workers, also where the answer is kept and none would be asked."""
    if where:
        from planner.cores import known_workers

        known_workers(where)
    return where


WorkersOption = Annotated[
    str,
    typer.Option(
        "--workers",
        metavar="N|tcp://HOST:PORT",
        help="Measure and try on N processes, or on a running cluster (dask).",
        callback=_workers,
    ),
]

"""``fitwright chapter``: the ledger of many recipients, printers, spools and prints."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, PaperChoice, PaperOption, QuietOption


def chapter(
    jobs: Annotated[
        list[Path], typer.Argument(help="Job files, or a folder that holds one folder with a job.toml for each job.")
    ],
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Where everything is written.")] = Path(
        "chapter"
    ),
    paper: PaperOption = PaperChoice.a4,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Plan all jobs of a chapter on one calendar, and keep its ledger: recipients, printers, spools and prints.

    Plans are those of `fitwright plan` of the same jobs; the ledger is read from them and from the print logs beside
    the jobs. Examples: `fitwright chapter jobs`, `fitwright chapter r07/job.toml r11/job.toml -o chapter`
    """
    from planner.cli.load import named
    from planner.cli.plan.several import plan_together
    from planner.output import Out

    out = Out(json_path=json, quiet=quiet)
    loaded = [named(path, several=True) for path in job_files(jobs)]
    raise typer.Exit(0 if plan_together(loaded, out_dir, paper.value, out).passes else 1)


def job_files(paths: Sequence[Path]) -> list[Path]:
    """Return the job files that paths name, each once: a file, a folder with one, or a folder of such folders.

    Raises
    ------
    CommandError
        Where a folder holds no job.toml, nor does any folder in it.
    """
    from planner.errors import CommandError

    found: dict[Path, Path] = {}
    for path in paths:
        inside = sorted(path.glob("*/job.toml")) if path.is_dir() else []
        own = path / "job.toml" if path.is_dir() else path
        files = [own] if own.is_file() or not path.is_dir() else inside
        if not files:
            wrong = "there is no job.toml in it, nor in a folder in it"
            raise CommandError(where=str(path), wrong=wrong, todo="name job files, or begin one with fitwright start")
        found |= {file.resolve(): file for file in files if file.resolve() not in found}
    return list(found.values())

"""``fitwright demo``: the sample device, planned, with a report to look at."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption


def demo(
    folder: Annotated[Path, typer.Argument(help="Folder to copy the sample to.")] = Path("heron"),
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Copy the sample device into a folder, plan it, and show where the report is.

    Example: `fitwright demo`, `fitwright demo ./try-it`
    """
    from planner.cli.plan.plan_command import plan
    from planner.errors import CommandError
    from planner.job import shipped

    if folder.exists() and not folder.is_dir():
        raise CommandError(where=str(folder), wrong="it is a file", todo="name a new or empty folder")
    if folder.is_dir() and any(folder.iterdir()) and not (folder / "job.toml").is_file():
        raise CommandError(where=str(folder), wrong="it is not empty", todo="name a new or empty folder")
    if not (folder / "job.toml").is_file():  # a second run plans what is there, with your changes
        shutil.copytree(shipped("sample_parts") / "heron", folder, dirs_exist_ok=True)
    plan([folder / "job.toml"], out_dir=folder / "plan", json=json, quiet=quiet)

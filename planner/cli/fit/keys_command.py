"""``fitwright keys``: every key of a job file, a chapter's file, a plan and the profiles."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption

TableArgument = Annotated[
    str, typer.Argument(metavar="[TABLE]", help="A table, such as part, plan.json or printer.bed; left out: all.")
]


TermsOption = Annotated[bool, typer.Option("--terms", help="Explain the terms of the trade instead.")]


def keys(
    table: TableArgument = "", terms: TermsOption = False, json: JsonOption = "", quiet: QuietOption = False
) -> None:
    """Print the keys of job.toml, chapter.toml, plan.json and the profiles: what each takes, its unit and default.

    Examples: `fitwright keys`, `fitwright keys part`, `fitwright keys plan.json.plate`, `fitwright keys --terms`
    """
    from planner.job import key_tables, matching, read_glossary
    from planner.output import Out, chapter_tables, plan_tables, show_keys, show_terms

    out = Out(json_path=json, quiet=quiet)
    if terms:
        words = read_glossary()
        out.emit({"schema": "fitwright/terms/1", "terms": [asdict(one) for one in words]})
        show_terms(out.console, words)
        return
    tables = (*key_tables(), *chapter_tables(), *plan_tables())
    found = matching(tables, table) if table else tables
    out.emit({"schema": "fitwright/keys/1", "tables": [asdict(one) for one in found]})
    show_keys(out.console, found)

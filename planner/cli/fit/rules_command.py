"""``fitwright rules``: every rule with its limit, where that comes from, and who may change it."""

from __future__ import annotations

from dataclasses import asdict
from typing import Annotated

import typer

from planner.cli.options import JsonOption, QuietOption

NameArgument = Annotated[
    str, typer.Argument(metavar="[NAME]", help="A rule such as bore.tight, or the start of names such as bore.")
]
NOTHING = "nothing: "
"""Before what a rule finds that compares no numbers."""


def rules(name: NameArgument = "", json: JsonOption = "", quiet: QuietOption = False) -> None:
    """Print the rules: what each compares, its limit with the source, the usual remedy, and who may change it.

    Examples: `fitwright rules`, `fitwright rules bore`, `fitwright rules wall.thin --json -`
    """
    from rich.markup import escape
    from rich.table import Table

    from planner.job import read_limits
    from planner.output import Out
    from planner.rules import rule_rows

    out = Out(json_path=json, quiet=quiet)
    rows = rule_rows(read_limits(), name)
    out.emit({"schema": "fitwright/rules/1", "rules": [asdict(row) for row in rows]})
    for row in rows:
        table = Table.grid(padding=(0, 1))
        for head, text in (
            ("finds" if row.compares.startswith(NOTHING) else "compares", row.compares.removeprefix(NOTHING)),
            ("limit", row.limit),
            ("source", row.source),
            ("remedy", row.remedy),
            ("changed by", "; ".join(row.changed_by)),
            ("asks", ", ".join(row.asks)),
            ("work", "by hand, on an opening of a printed part" if row.bench else ""),
            ("coupon", "its readings decide" if row.coupon else ""),
        ):
            if text:
                table.add_row(f"  {head}", escape(text))
        out.console.print(f"\n[bold]{row.name}[/] (station: {row.station})", highlight=False)
        out.console.print(table)

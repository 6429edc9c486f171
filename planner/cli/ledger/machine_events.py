"""What happened to a machine or a spool: a nozzle changed, a coupon measured, a printer blocked; one line each."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.ledger.event_commands import tell_event
from planner.cli.ledger.ledger_options import LedgerOption, RoleOption, WhenOption, event_of
from planner.cli.options import JsonOption, QuietOption

PrinterArgument = Annotated[str, typer.Argument(metavar="PRINTER", help="The printer's name in the chapter.")]


def nozzle(
    printer: PrinterArgument,
    diameter_mm: Annotated[float, typer.Argument(metavar="MM", help="The new nozzle's diameter, such as 0.6.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say which nozzle is in a printer now: plates for another one are not planned on it.

    Example: `fitwright nozzle bench-2 0.6`
    """
    tell_event(event_of("nozzle", printer, when, role, nozzle_mm=diameter_mm), ledger, json, quiet=quiet)


def measured(
    printer: PrinterArgument,
    until: Annotated[
        datetime,
        typer.Option("--until", metavar="DAY", formats=["%Y-%m-%d"], help="The last day on which it is believed."),
    ],
    material: Annotated[str, typer.Option("--material", help="The coupon's material.")] = "",
    nozzle_mm: Annotated[
        float | None, typer.Option("--nozzle", metavar="MM", help="The nozzle that it was printed with.")
    ] = None,
    readings: Annotated[
        Path | None, typer.Option("--readings", metavar="FILE", help="Its readings.toml, filled in: the ledger learns.")
    ] = None,
    spool: Annotated[str, typer.Option("--spool", metavar="ID", help="The spool that it was printed from.")] = "",
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a printer's coupon was measured: it counts for that nozzle and material, on that printer, until a day.

    With its readings the ledger knows the printer's own offsets, and plans use them; without, they come from
    `fitwright calibrate`. A printer that was blocked takes plates again.
    Examples: `fitwright measured bench-2 --readings coupon/readings.toml --spool S-4 --until 2027-03-01`,
    `fitwright measured bench-2 --material petg --nozzle 0.4 --until 2027-03-01`
    """
    from planner.cli.ledger.coupon_told import coupon_told

    said = coupon_told(readings, material, nozzle_mm)
    event = event_of("measured", printer, when, role, **said, until=until.date().isoformat(), spool=spool)
    tell_event(event, ledger, json, quiet=quiet)


def blocked(
    printer: PrinterArgument,
    why: Annotated[str, typer.Option("--why", metavar="TEXT", help="What happened to it, such as 'new hot end'.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a printer takes no plates until its coupon is measured: tell that with `fitwright measured`.

    Example: `fitwright blocked bench-2 --why "new hot end"`
    """
    tell_event(event_of("blocked", printer, when, role, why=why), ledger, json, quiet=quiet)


def retired(
    spool: Annotated[str, typer.Argument(metavar="SPOOL", help="What is written on the spool.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a spool is retired, damp or recalled: no plate is planned from it any more; its prints stay known.

    Example: `fitwright retired S-4`
    """
    tell_event(event_of("retired", spool, when, role), ledger, json, quiet=quiet)

"""What happened to a machine or a spool: a nozzle changed, a coupon measured, a spool retired; one line each."""

from __future__ import annotations

from datetime import datetime
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
    material: Annotated[str, typer.Option("--material", help="The coupon's material.")],
    nozzle_mm: Annotated[float, typer.Option("--nozzle", metavar="MM", help="The nozzle that it was printed with.")],
    until: Annotated[
        datetime,
        typer.Option("--until", metavar="DAY", formats=["%Y-%m-%d"], help="The last day on which it is believed."),
    ],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a printer's coupon was measured: it counts for that nozzle and material, on that printer, until a day.

    Its offsets come from `fitwright calibrate`.
    Example: `fitwright measured bench-2 --material petg --nozzle 0.4 --until 2027-03-01`
    """
    said = {"material": material, "nozzle_mm": nozzle_mm, "until": until.date().isoformat()}
    tell_event(event_of("measured", printer, when, role, **said), ledger, json, quiet=quiet)


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

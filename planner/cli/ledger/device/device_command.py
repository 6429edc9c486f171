"""What happens to a device once its pieces are there: tested, spoilt, asked about, complained of, repaired, ended."""

from __future__ import annotations

from typing import Annotated

import typer

from planner.cli.ledger.event_commands import CodeArgument, tell_event
from planner.cli.ledger.ledger_options import LedgerOption, RoleOption, WhenOption, event_of
from planner.cli.options import JsonOption, QuietOption


def device(
    job: CodeArgument,
    what: Annotated[str, typer.Argument(metavar="WHAT", help="tested, spoilt, asked, complained, repaired or ended.")],
    text: Annotated[str, typer.Argument(metavar="[TEXT]", help="What was seen, said or done; never a name.")] = "",
    lost: Annotated[
        str, typer.Option("--lost", metavar="PIECES", help="Of spoilt: the pieces that broke or got lost, as jaw:1.")
    ] = "",
    failed: Annotated[bool, typer.Option("--failed", help="Of tested: it did not pass.")] = False,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "tester",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say what happened to a device: spoilt pieces are planned again, one that is not tested is not handed over.

    `asked` answers a question of how it goes that is due; `ended` takes a device out of all plans.
    See all of it by `fitwright ledger LEDGER show devices`.

    Examples: `fitwright device R-07 tested`, `fitwright device R-07 tested "slips at 20 N" --failed`,
    `fitwright device R-07 spoilt "cracked while drilling" --lost jaw:1`, `fitwright device R-07 asked "works daily"`
    """
    from planner.calibrate import lost_pieces
    from planner.errors import CommandError
    from planner.ledger import LOG_KINDS
    from planner.phrases import listed

    if what not in LOG_KINDS:
        raise CommandError(
            where=what, wrong="nothing that happens to a device is called so", todo=f"say {listed(LOG_KINDS, 'or')}"
        )
    wrong = "--lost" if lost and what != "spoilt" else "--failed" if failed and what != "tested" else ""
    if wrong:
        of = "spoilt" if lost else "tested"
        raise CommandError(
            where=wrong, wrong=f"it is told of {of} alone, not of {what}", todo=f"leave it out, or tell {of}"
        )
    said = {"text": text, "lost": dict(lost_pieces(lost, "--lost")), "passed": not failed if what == "tested" else None}
    tell_event(event_of(what, job, when, role, **said), ledger, json, quiet=quiet)

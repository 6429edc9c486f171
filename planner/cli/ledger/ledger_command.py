"""``fitwright ledger``: a ledger made, upgraded, backed up, carried, and asked."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from planner.cli.ledger.ledger_options import CHAPTER, event_of, moment_of
from planner.cli.options import JsonOption, QuietOption

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

    from planner.ledger import Event
    from planner.output import Out

ACTIONS = {
    "init": "",
    "fill": "FILE",
    "upgrade": "",
    "backup": "FILE",
    "restore": "FILE",
    "export": "DIR",
    "import": "DIR|FILE",
    "recall": "LOT",
    "learned": "",
    "forecast": "",
    "show": "VIEW",
}
"""What can be done, and what it needs to be told."""
LOOK_BACK = ("show", "recall", "learned")
"""What can be asked of what a ledger knew at a moment."""


def ledger(
    where: Annotated[
        str, typer.Argument(metavar="FILE|URL", help="The ledger: a file, or postgresql://USER@HOST/NAME.")
    ],
    action: Annotated[
        str,
        typer.Argument(
            metavar="ACTION",
            help="init, fill, upgrade, backup, restore, export, import, recall, show, learned or forecast.",
        ),
    ],
    what: Annotated[
        str,
        typer.Argument(
            metavar="[FILE|DIR|LOT|VIEW|MONTHS]",
            help="What to write or read; to show: recipients, printers, spools, stock, plates, devices or due.",
        ),
    ] = "",
    known: Annotated[
        str, typer.Option("--known", metavar="MOMENT", help="Show or recall what the ledger knew at that moment.")
    ] = "",
    parquet: Annotated[
        bool, typer.Option("--parquet", help="Of export: write every table as Parquet, too (fitwright[tables]).")
    ] = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Make a ledger, bring it up to date, back it up, restore it, export and import it, or ask it.

    A new ledger begins with the people, printers, coupons and spools of chapter.toml beside it; fill takes what is new
    in such a file later, and what it says of people and printers.
    Examples: `fitwright ledger ledger.db init`, `fitwright ledger ledger.db show plates`,
    `fitwright ledger ledger.db recall L-31`, `fitwright ledger ledger.db learned`,
    `fitwright ledger ledger.db forecast 6`, `fitwright ledger ledger.db export out --parquet`,
    `fitwright ledger ledger.db backup ledger-2026-12-01.db`
    """
    from planner.output import Out, row_table

    out = Out(json_path=json, quiet=quiet)
    _needs(action, what, known, parquet=parquet)
    if action == "learned":
        from planner.cli.ledger.history.learned_action import learned_rows, show_learned
        from planner.ledger import as_known, opened

        engine = opened(where)
        history, told = learned_rows(as_known(engine, moment_of(known)) if known else engine, _folder_of(where))
        out.emit({"schema": "fitwright/ledger/1", "action": action, **told})
        show_learned(out.console, history)
        return
    if action == "forecast":
        _forecast(where, what, out)
        return
    title, result = _done(where, action, what, known, parquet=parquet)
    out.emit({"schema": "fitwright/ledger/1", "action": action, **result})
    if "rows" in result:
        out.console.print(row_table(title, result["rows"]))
    else:
        out.console.print(title, markup=False, soft_wrap=True)


def _forecast(where: str, what: str, out: Out) -> None:
    """Simulate the months to come; a history that is too short ends with exit code 1."""
    from planner.cli.ledger.history.forecast_action import forecast_json, forecast_of, months_told, show_forecast
    from planner.ledger import opened

    months_n = months_told(what)
    ahead = forecast_of(opened(where), _folder_of(where), moment_of(""), months_n)
    out.emit({"schema": "fitwright/ledger/1", "action": "forecast", **forecast_json(ahead)})
    show_forecast(out.console, ahead)
    raise typer.Exit(1 if ahead.missing else 0)


def _needs(action: str, what: str, known: str, *, parquet: bool) -> None:
    """Refuse an action that is not known, or that lacks what it needs.

    Raises
    ------
    CommandError
        With what to write.
    """
    from planner.errors import CommandError, nearest

    if action not in ACTIONS:
        raise CommandError(where=action, wrong="no such action is known", todo=nearest(action, ACTIONS))
    needs = ACTIONS[action]
    if needs and not what:
        raise CommandError(where=action, wrong=f"a {needs} is missing", todo=f"write: ledger LEDGER {action} {needs}")
    if what and not needs and action != "forecast":
        raise CommandError(where=action, wrong=f"'{what}' is too much", todo=f"write: ledger LEDGER {action}")
    if parquet and action != "export":
        raise CommandError(where="--parquet", wrong="only export writes it", todo="leave it out")
    if known and action not in LOOK_BACK:
        raise CommandError(where="--known", wrong=f"only {', '.join(LOOK_BACK)} look back", todo="leave it out")


def _done(where: str, action: str, what: str, known: str, *, parquet: bool) -> tuple[str, dict[str, Any]]:
    """Do it, and return a title or sentence, and the result."""
    from planner.ledger import (
        as_known,
        backed_up,
        brought_up,
        exported,
        imported,
        in_parquet,
        journal_in,
        opened,
        recalled,
        restored,
        shown,
    )

    now = moment_of("")
    if action == "init":
        return begun(where)
    if action == "upgrade":
        before, after = brought_up(where)
        return f"version {after}, it was {before}", {"before": before, "after": after}
    if action == "restore":
        n = restored(where, Path(what))
        again = "whoever was forgotten after this backup was made is in it again: forget them again"
        return f"restored: {n} events; {again}", {"events_n": n}
    engine = opened(where)
    if action == "fill":
        return filled(engine, Path(what))
    if action == "backup":
        path = Path(what).resolve()
        n = backed_up(engine, path, event_of("backup", "ledger", "", "lead", path=str(path)), now)
        return f"backed up {n} events in {path}", {"events_n": n, "path": str(path)}
    if action == "export":
        tables = in_parquet(engine, Path(what)) if parquet else ()
        files = [str(path) for path in (*exported(engine, Path(what)), *tables)]
        return f"wrote {len(files)} files in {what}", {"files": files}
    if action == "import":
        taken_n, there_n = imported(engine, Path(what))
        told = f"took {taken_n} of {there_n} events of {journal_in(Path(what))}; the others were there"
        return told, {"taken_n": taken_n, "events_n": there_n}
    then = as_known(engine, moment_of(known)) if known else engine
    if action == "recall":
        return f"prints of lot {what}", {"lot": what, "rows": recalled(then, what)}
    return what, {"view": what, "rows": shown(then, what, now.date())}


def _folder_of(where: str) -> Path:
    """Return where a ledger's printers have profiles of their own: beside its file, or here for one on a server."""
    return Path() if "://" in where else Path(where).parent


def begun(where: str) -> tuple[str, dict[str, Any]]:
    """Make a ledger, and fill it from the chapter's file: beside it, or here for one on a server."""
    from planner.ledger import events_of, made, told

    path = _folder_of(where) / CHAPTER
    events = events_of(path, moment_of("")) if path.is_file() else ()
    told(made(where), events, moment_of(""))
    if not events:
        return f"made; there is no {path} to fill it from", {"events_n": 0}
    return f"made and filled from {path}: {_counted(events)}", {"events_n": len(events)}


def filled(engine: Engine, path: Path) -> tuple[str, dict[str, Any]]:
    """Take into a ledger what a chapter's file tells of people and printers, and the coupons and spools that are new.

    What a spool has left and until when a coupon counts is what was told to the ledger since.
    """
    from planner.ledger import events_of, shown, told, untold

    now = moment_of("")
    spools = {row["id"] for row in shown(engine, "spools", now.date())}
    coupons = {(row["printer"], row["nozzle_mm"], row["material"]) for row in shown(engine, "coupons", now.date())}

    def new(event: Event) -> bool:
        if event.kind == "measured":
            return (event.subject, event.body["nozzle_mm"], event.body["material"]) not in coupons
        return event.kind != "spool" or event.subject not in spools

    events = told(engine, untold(engine, [event for event in events_of(path, now) if new(event)]), now)
    if not events:
        return f"there is nothing new in {path}", {"events_n": 0}
    return f"taken from {path}: {_counted(events)}", {"events_n": len(events)}


def _counted(events: Sequence[Event]) -> str:
    """Return how many of each kind, in words; kinds of which there are none are left out."""
    from planner.phrases import listed, plural

    things = {"person": "helper", "printer": "printer", "measured": "coupon", "spool": "spool"}
    counts = {thing: sum(event.kind == kind for event in events) for kind, thing in things.items()}
    return listed(plural(n, thing) for thing, n in counts.items() if n)

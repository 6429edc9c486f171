"""What happened, in one line each: a plate done or failed, a spool weighed, something bought, a device handed over."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Annotated

import typer

from planner.cli.ledger.ledger_options import LedgerOption, RoleOption, WhenOption, event_of, ledger_at, moment_of
from planner.cli.ledger.print_told import spools_told, taken_text, took_s
from planner.cli.options import JsonOption, QuietOption

if TYPE_CHECKING:
    from sqlalchemy.engine import Engine

    from planner.ledger import Event

PlateArgument = Annotated[str, typer.Argument(metavar="PLATE", help="The plate's id, such as R-07.3.")]
CodeArgument = Annotated[str, typer.Argument(metavar="JOB", help="The recipient's code, such as R-07.")]
GramsOption = Annotated[
    float | None, typer.Option("--grams", min=0.0, metavar="G", help="What it took, where weighed.")
]
SpoolOption = Annotated[str, typer.Option("--spool", metavar="ID", help="The spool it took, where several may be.")]
SpoolsOption = Annotated[
    list[str] | None,
    typer.Option(
        "--spool", metavar="ID[:G]", help="The spool it took; where one ran empty, each with its grams: S-1:30 S-2:12."
    ),
]
EvenSoOption = Annotated[
    bool, typer.Option("--even-so", help="It is so, although the ledger knows what speaks against it; that is kept.")
]


def done(
    plate: PlateArgument,
    grams: GramsOption = None,
    took: Annotated[
        str, typer.Option("--took", metavar="TIME", help="How long it ran by the printer's own clock: 3h20.")
    ] = "",
    spool: SpoolsOption = None,
    even_so: EvenSoOption = False,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a plate is printed: it is not planned again, and its spool loses its grams.

    Hours and grams that are told teach later plans: see `fitwright ledger LEDGER learned`. Where a spool ran empty and
    another went on, name both: the first gave all that it had left, unless you tell its grams.
    Examples: `fitwright done R-07.3`, `fitwright done R-07.3 --grams 41.5 --took 3h20`,
    `fitwright done R-07.3 --spool S-1:30 --spool S-2`
    """
    said = {"used_g": grams, **spools_told(spool), "even_so": even_so or None, "ran_s": took_s(took)}
    tell_event(event_of("done", plate, when, role, **said), ledger, json, quiet=quiet)


def started(
    plate: PlateArgument,
    printer: Annotated[str, typer.Option("--on", metavar="PRINTER", help="The printer; left out: as planned.")] = "",
    spool: SpoolOption = "",
    even_so: EvenSoOption = False,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a plate runs: later plans leave it running, and keep its printer and its spool for it.

    Another kind of printer or nozzle than it is planned for, another material or colour, a spool that is retired or has
    too few grams: refused, unless you add --even-so.

    Examples: `fitwright started R-07.3`, `fitwright started R-07.3 --on bench-2 --when 2026-12-01T18:30`
    """
    event = event_of("started", plate, when, role, printer=printer, spool=spool, even_so=even_so or None)
    tell_event(event, ledger, json, quiet=quiet)


def failed(
    plate: PlateArgument,
    cause: Annotated[str, typer.Option("--cause", metavar="WORD", help="What was seen: loose, strands, shifted …")],
    at: Annotated[
        str,
        typer.Option(
            "--at", metavar="TIME", help="How long it had run: 3h, 2h30; left out: since it was logged as started."
        ),
    ] = "",
    lost: Annotated[
        str, typer.Option("--lost", metavar="PIECES", help="Pieces that are lost, as jaw:1; left out: all.")
    ] = "",
    grams: GramsOption = None,
    spool: SpoolsOption = None,
    even_so: EvenSoOption = False,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a plate failed: lost pieces are planned again, whole ones are not, and its spool loses its grams.

    Examples: `fitwright failed R-07.3 --at 1h20 --cause loose`,
    `fitwright failed R-07.3 --at 2h --cause scarred --lost jaw:1`
    """
    from planner.calibrate import lost_pieces
    from planner.cli.plan.failed_command import seconds_of
    from planner.errors import CommandError, nearest
    from planner.job import read_failure_rules

    causes = read_failure_rules()
    if cause not in causes:
        raise CommandError(where="--cause", wrong=f"'{cause}' is not known", todo=nearest(cause, causes))
    gone = dict(lost_pieces(lost, "--lost"))
    ran_s = seconds_of(at) if at else None
    said = {"ran_s": ran_s, "cause": cause, "lost": gone, "used_g": grams, **spools_told(spool)}
    tell_event(event_of("failed", plate, when, role, **said, even_so=even_so or None), ledger, json, quiet=quiet)


def weighed(
    spool: Annotated[str, typer.Argument(metavar="SPOOL", help="What is written on the spool.")],
    grams: Annotated[float, typer.Argument(metavar="G", min=0.0, help="Grams of filament left, without the reel.")],
    material: Annotated[str, typer.Option("--material", help="Of a new spool: its material.")] = "",
    colour: Annotated[str, typer.Option("--colour", help="Of a new spool: its colour.")] = "",
    lot: Annotated[str, typer.Option("--lot", help="Its lot, for a recall.")] = "",
    printer: Annotated[str, typer.Option("--on", metavar="PRINTER", help="The printer it hangs on.")] = "",
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say how many grams are left on a spool; a new spool is known from then on.

    Examples: `fitwright weighed S-4 212`, `fitwright weighed S-9 1000 --material petg --colour green --lot L-31`
    """
    said = {"material": material, "colour": colour, "lot": lot, "printer": printer}
    tell_event(event_of("weighed", spool, when, role, left_g=grams, **said), ledger, json, quiet=quiet)


def bought(
    item: Annotated[str, typer.Argument(metavar="ITEM", help="What it is, such as 'screw M3x12'.")],
    n: Annotated[float, typer.Argument(metavar="N", help="How many, or how many metres; less than 0 takes out.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "lead",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that something was bought: it is added to the stock.

    Name it as the list of what to buy does. Examples: `fitwright bought "braided 1 mm" 10`,
    `fitwright bought "webbing 25 mm" -1.5`
    """
    tell_event(event_of("bought", item, when, role, n=n), ledger, json, quiet=quiet)


def fitted(
    job: CodeArgument,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "fitter",
    even_so: EvenSoOption = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a device was fitted with its recipient: what it is made of leaves the stock.

    A plate of it that is not printed speaks against it. Example: `fitwright fitted R-07`
    """
    tell_event(event_of("fitted", job, when, role, even_so=even_so or None), ledger, json, quiet=quiet)


def handed(
    job: CodeArgument,
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "fitter",
    even_so: EvenSoOption = False,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Say that a device was handed over: somebody asks how it goes after a week and 1, 3 and 6 months.

    Example: `fitwright handed R-07 --when 2026-12-12T17:00`
    """
    tell_event(event_of("handed", job, when, role, even_so=even_so or None), ledger, json, quiet=quiet)


def note(
    job: CodeArgument,
    text: Annotated[str, typer.Argument(metavar="TEXT", help="The note: about the device, never who the person is.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "maker",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Keep a note about a job; what looks like a name, an address or a telephone number is refused.

    Example: `fitwright note R-07 "strap 20 mm shorter"`
    """
    tell_event(event_of("note", job, when, role, text=text), ledger, json, quiet=quiet)


def forget(
    code: Annotated[str, typer.Argument(metavar="CODE", help="The recipient's code.")],
    ledger: LedgerOption = "",
    when: WhenOption = "",
    role: RoleOption = "lead",
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Redact a recipient everywhere, in the journal too, and name the backups that still hold the code.

    What was printed stays, under a code of nobody and without its size; grams and hours stay as they are. The job's
    folder, its plans and photos are no part of the ledger: delete them yourself. This cannot be taken back.
    Example: `fitwright forget R-07`
    """
    from planner.ledger import forgotten
    from planner.output import Out

    out = Out(json_path=json, quiet=quiet)
    stands, backups = forgotten(ledger_at(ledger), event_of("forget", code, when, role), moment_of(""))
    out.emit({"schema": "fitwright/event/1", "kind": "forget", "stands": stands, "backups": list(backups)})
    told = f"forgotten; {stands} stands for it in what was printed; its folder, plans and photos are yours to delete"
    out.console.print(told, markup=False, soft_wrap=True)
    for path in backups:
        out.console.print(f" - this backup still holds it, delete or replace it: {path}", markup=False, soft_wrap=True)


def tell_event(event: Event, ledger: str, json_path: str, *, quiet: bool) -> None:
    """Take an event into the ledger, and say what follows from it."""
    from planner.ledger import shown, told
    from planner.output import Out

    out = Out(json_path=json_path, quiet=quiet)
    engine = ledger_at(ledger)
    kept = told(engine, [event], moment_of(""))[0]
    left = {row["id"]: row["left_g"] for row in shown(engine, "spools", event.at.date())}
    due = [row["due"] for row in shown(engine, "due", event.at.date()) if row["job"] == event.subject]
    spool = kept.body.get("spool", event.subject)
    left_g = left.get(spool)
    follows = {"left_g": left_g, "due": due if event.kind == "handed" else []}
    out.emit({"schema": "fitwright/event/1", "kind": kept.kind, "subject": kept.subject, **kept.body, **follows})
    words = [f"{kept.subject} {kept.kind}"]
    words += print_words(kept, left) if kept.kind in ("done", "failed") else []
    words += [f"although {', and '.join(kept.body['despite'])}"] if kept.body.get("despite") else []
    if kept.kind == "started":
        words.append(f"it runs on {kept.body['printer']}")
    if left_g is not None and not kept.body.get("fed"):
        words.append(f"{left_g:.0f} g left on it")
    if kept.body.get("took"):
        words.append(f"out of the stock: {', '.join(taken_text(row) for row in kept.body['took'])}")
    words += bought_words(engine, kept) if kept.kind == "bought" else []
    if follows["due"]:
        words.append(f"ask how it goes on {', '.join(due)}")
    out.console.print("; ".join(words), markup=False, soft_wrap=True)


def bought_words(engine: Engine, event: Event) -> list[str]:
    """Return how much of what was bought is there now, and what a thing may be called that no device takes."""
    from planner.errors import nearest
    from planner.ledger import items_known, shown

    stock = {row["name"]: row["n"] for row in shown(engine, "stock", event.at.date())}
    words, known = [f"{stock[event.subject]:.4g} in stock"], items_known(engine)
    if known and event.subject not in known:
        words.append(f"no planned device takes anything of that name; {nearest(event.subject, known)}")
    return words


def print_words(event: Event, left_g: Mapping[str, float | None]) -> list[str]:
    """Return what a print that is over took off which spools, and which pieces came off whole."""
    body, fed = event.body, event.body.get("fed", ())
    words = [f"off spool {row['spool']}: {row['used_g']:.1f} g" for row in fed]
    words += [f"{grams:.0f} g left on {row['spool']}" for row in fed if (grams := left_g[row["spool"]]) is not None]
    if not fed:
        spool = body.get("spool", event.subject)
        words.append("the ledger knows no spool for it" if not spool else f"off spool {spool}")
        words += [f"{body['used_g']:.1f} g"] if body["used_g"] is not None else []
    return [*words, f"whole: {', '.join(f'{part} x {n}' for part, n in body['good'].items()) or 'nothing'}"]

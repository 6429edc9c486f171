"""``fitwright start``: a folder of meshes becomes a commented job file."""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JsonOption, PrinterOption, QuietOption, UnitOption

NONE_TOGETHER = 999
"""So many questions that none are asked together: an answer file may speak of each size."""


def start(
    folder: Annotated[Path, typer.Argument(help="A folder of meshes.")],
    measure: Annotated[
        list[str] | None,
        typer.Option(
            "--measure",
            metavar="PART=MM",
            help="A measure of the recipient in mm, compared with the inside of a part at its middle: `cuff=58`. "
            "`cuff=58/62` also gives the device's own measure at 100 %; `cuff=around:190` is a circumference.",
        ),
    ] = None,
    side: Annotated[str | None, typer.Option("--side", help="left or right.")] = None,
    bed: Annotated[
        str | None, typer.Option("--bed", metavar="XxYxZ", help="Your printer's bed, such as 220x220x240.")
    ] = None,
    have: Annotated[
        str | None, typer.Option("--have", metavar="LIST", help="Materials you have, such as pla,petg.")
    ] = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    force: Annotated[bool, typer.Option("--force", help="Replace an existing job.toml.")] = False,
    ask: Annotated[
        bool,
        typer.Option("--ask", help="Ask what form cannot tell; answers go into job.toml, a new one or the one there."),
    ] = False,
    answers: Annotated[
        Path | None,
        typer.Option("--answers", metavar="FILE", help='Take answers from a file of id = "option" lines instead.'),
    ] = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write a commented job.toml for a folder of meshes; every guess in it is marked, and what decides is asked.

    Examples: `fitwright start ./meshes --ask`, `fitwright start ./meshes --measure cuff=58 --bed 220x220x240`
    """
    from planner.assembly import by_weight, given_edits
    from planner.cli.fit.start_questions import answers_in, asked
    from planner.cli.fit.start_words import measures_of, only_for_new, printer_of, side_of, spools_of
    from planner.errors import CommandError
    from planner.job import Size, edited, job_of_folder, job_text, marked_guesses, read_job, with_edits
    from planner.mesh import objects_in
    from planner.output import Out, QuestionPictures, show_lines, start_json, start_lines
    from planner.plan import prepare
    from planner.rules import check, open_doubts, settled_n
    from planner.whole_file import write_text

    out = Out(json_path=json, quiet=quiet)
    if not folder.is_dir():
        raise CommandError(where=str(folder), wrong="this is not a folder", todo="name a folder of meshes")
    target, profile, text = folder / "job.toml", None, ""
    given = {} if answers is None else answers_in(answers)
    if target.exists() and not force and (ask or answers):
        only_for_new(target, measure=measure, side=side, bed=bed, have=have, printer=printer, unit=unit)
        job, text = read_job(target), target.read_text(encoding="utf-8")
    elif target.exists() and not force:
        todo = "add --ask to answer its questions, or --force to replace it"
        raise CommandError(where=str(target), wrong="it already exists", todo=todo)
    else:
        chosen, printer_name, profile = printer_of(printer, bed, folder)
        stated = (printer, bed) != (None, None)
        bare = job_of_folder(
            folder,
            printer=chosen,
            spools=spools_of(have),
            mesh_unit=unit,
            printer_stated=stated,
            objects_in=objects_in,
        )
        size = Size(side=side_of(side), measures=measures_of(measure or [], [part.name for part in bare.parts]))
        job = replace(bare, size=size)
    with out.progress() as progress:
        ready = prepare(job, date.today(), progress)
    if not text:
        checks = {name: found.sha256 for name, found in ready.surveys.items()}
        text = job_text(ready.job, checks, printer_name)
    checked = check(ready.bound, ready.sizing.percent)
    settles = settled_n(checked)
    doubts = by_weight(open_doubts(ready.job, ready.surveys, close=ready.close), settles)
    every = {one.id: one for one in (*open_doubts(ready.job, ready.surveys, NONE_TOGETHER, ready.close), *doubts)}
    edits = given_edits(tuple(every.values()), given, str(answers))
    if ask:
        pictures = QuestionPictures(ready.solids, ready.surveys)
        open_yet = [doubt for doubt in doubts if doubt.id not in given]
        told = asked(open_yet, lambda doubt: pictures.written(doubt, folder / "questions"), sys.stdin.readline)
        edits = (*edits, *given_edits(doubts, told, "--ask"))
        given |= told
    after = with_edits(ready.job, edits) if edits else ready.job
    if profile is not None:
        write_text(folder / printer_name, profile)
    write_text(target, edited(text, edits, f"answered {date.today()}") if edits else text)
    anew = any(one.partition("-")[0] == "unit" for one in given)  # nothing that was measured means anything yet
    left = () if anew else by_weight(open_doubts(after, ready.surveys, close=ready.close), settles)
    out.emit(start_json(str(target), after, marked_guesses(after), left, settles, given))
    show_lines(out.console, start_lines(str(target), str(folder), after, left, settles, len(given), anew=anew))

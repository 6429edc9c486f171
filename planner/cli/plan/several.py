"""Several jobs planned together: a folder for each, one calendar, and the chapter's sums beside them."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planner.cli.ledger.chapter_state import ChapterState
    from planner.finding import Verdict
    from planner.job import Job
    from planner.output import Out, PaperName, Written
    from planner.plan import Plan

AGAIN_N = 3
"""So often a plan is made again that somebody told something meanwhile."""


def folder_names(names: Sequence[str]) -> tuple[str, ...]:
    """Return one folder name for each job.

    >>> folder_names(["Heron for R-07", "Heron for R-07", "../x"])
    ('Heron-for-R-07', 'Heron-for-R-07-2', 'x')
    """
    from planner.packing import file_word, taken

    found: list[str] = []
    for name in names:
        plain = file_word(name, kept="-_").strip("-") or "job"
        folder, count = plain, 1
        while taken(folder, found):
            count += 1
            folder = f"{plain}-{count}"
        found.append(folder)
    return tuple(found)


def plan_together(
    paths: Sequence[Path],
    read: Callable[[Path], Job],
    out_dir: Path,
    paper: PaperName,
    out: Out,
    *,
    risk: bool = False,
    state: ChapterState | None = None,
) -> Verdict:
    """Plan jobs on one calendar, write each into a folder of its own, and return the chapter's verdict.

    A job whose file or meshes cannot be read is a hold with its sentence, and the others are planned. With a ledger
    they are planned from its state, and it keeps their plates.

    What is told to the ledger while the plan is made is planned from, too: the plan is made again.

    Raises
    ------
    FitwrightError
        Where no job can be read: what is wrong with the first. Jobs whose printers are all blocked are held.
    """
    from planner.cli.ledger.ledger_options import moment_of
    from planner.ledger import ToldSinceError

    for _ in range(AGAIN_N):
        try:
            return _planned_once(paths, read, out_dir, paper, out, risk=risk, state=state)
        except ToldSinceError as late:
            print(f"fitwright: {late.wrong}; the plan is made again", file=sys.stderr)
            state = replace(state, now=moment_of("")) if state else None
    return _planned_once(paths, read, out_dir, paper, out, risk=risk, state=state)


def _planned_once(
    paths: Sequence[Path],
    read: Callable[[Path], Job],
    out_dir: Path,
    paper: PaperName,
    out: Out,
    *,
    risk: bool,
    state: ChapterState | None,
) -> Verdict:
    """Plan jobs from their state as it is now, and write what came out.

    Raises
    ------
    ToldSinceError
        Where the state became another one meanwhile; nothing is kept or written then.
    """
    from planner.cli.plan.left_out import left_out
    from planner.cli.plan.same_folder import write_changed
    from planner.finding import Verdict
    from planner.ledger import last_line, under_way
    from planner.output import CHAPTER_PAGE, chapter_json, chapter_page, show_chapter, show_risk
    from planner.plan import on_one_calendar
    from planner.whole_file import write_text

    seen = last_line(state.engine) if state else None
    made, unread = _each(paths, read, out, state)
    plans = dict(zip(folder_names([plan.job.name for plan in made]), made, strict=True))
    standing = {name: state.standing(plan) for name, plan in plans.items()} if state else None
    papers: dict[str, Written] = {}
    with out.progress() as progress:
        progress("one calendar for all", 0.8)
        chapter = on_one_calendar(plans, standing, state.shared if state else None)
        changes = state.changes(chapter.plans) if state else []
        # before any card is written: none carries an id that no ledger knows
        ids = state.kept(chapter.plans, seen) if state else {}
        for step, (name, one) in enumerate(chapter.plans.items()):
            progress("writing", 0.9 + 0.1 * step / len(plans))
            written = write_changed(one, out_dir / name, paper, ids.get(name))
            papers |= {name: written} if written else {}
        unread |= left_out(state, chapter.plans, unread)
    running = under_way(state.engine) if state else []
    sums = chapter_json(
        chapter.plans,
        chapter.note,
        unread,
        ids,
        changes,
        chapter=chapter,
        running=running,
        bought=state.bought if state else None,
        leads=state.leads if state else None,
        took=state.took if state else (),
        shared=state.shared if state else None,
        now=state.now if state else datetime.now().replace(microsecond=0),  # noqa: DTZ005  a job runs on local time
    )
    if state:
        sums |= state.forecast()
    write_text(out_dir / "chapter.json", json.dumps(sums, indent=1, ensure_ascii=False, allow_nan=False) + "\n")
    write_text(out_dir / CHAPTER_PAGE, chapter_page(sums))
    out.emit(sums)
    show_chapter(out.console, sums, out_dir, chapter.plans)
    for name, one in chapter.plans.items() if risk else ():
        out.console.print(f"\n{name}", markup=False)
        show_risk(out.console, one)
    say_languages(out, chapter.plans, ": ")
    _say_kept(out, papers, unread)
    return Verdict(str(sums["verdict"]))


def _say_kept(out: Out, papers: Mapping[str, Written], unread: Mapping[str, str]) -> None:
    """Say which filled-in forms were kept, and on stderr which jobs are not planned."""
    for name, written in papers.items():
        kept_form(out, written, f"{name}: ")
    for path, why in unread.items():
        print(f"fitwright: {path} is not planned: {' '.join(why.split())}", file=sys.stderr)


def _each(
    paths: Sequence[Path], read: Callable[[Path], Job], out: Out, state: ChapterState | None
) -> tuple[list[Plan], dict[str, str]]:
    """Return the plans of all jobs that can be read, of what is left to print, and what is wrong with the others."""
    from planner.cli.ledger.chapter_printers import AllBlockedError
    from planner.errors import FitwrightError
    from planner.plan import make_plan, prepare

    made: list[Plan] = []
    problems: dict[str, FitwrightError] = {}
    for path in paths:
        try:
            job = read(path)
            with out.progress() as progress:
                today = date.today()
                if state:
                    made.append(state.planned(job, today, progress))
                else:
                    made.append(make_plan(prepare(job, today, progress), progress))
        except FitwrightError as problem:
            problems[str(path)] = problem
    wrong = [problem for problem in problems.values() if not isinstance(problem, AllBlockedError)]
    if not made and wrong:
        raise wrong[0]
    return made, {path: str(problem).removeprefix(f"{path}: ") for path, problem in problems.items()}


def say_languages(out: Out, plans: Mapping[str, Plan], behind: str = "") -> None:
    """Say of each plan, behind its name, which papers are in another language than English."""
    from planner.output import language_words

    for name, plan in plans.items():
        if told := language_words(plan.job.language):
            out.console.print(f"{name}{behind}{told}", markup=False, soft_wrap=True)


def kept_form(out: Out, written: Written, whose: str = "") -> None:
    """Say which filled-in form was kept."""
    if written.kept is not None:
        form = "" if written.kept == written.record else f"; the new form is {written.record.name}"
        out.console.print(f"{whose}{written.kept.name} is filled in and was kept{form}", markup=False)

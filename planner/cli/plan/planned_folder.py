"""One job planned, its folder written, and what came out told: as it stands, with remedies, or after a failed plate."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from planner.calibrate import append_print
from planner.cli.fit.do_remedies import Replaced, done, named_remedies
from planner.cli.ledger.failed_in_chapter import event_json, event_words, failed_in, state_beside
from planner.cli.load_job import load
from planner.cli.plan.failed_command import failed_json, log_path, show_failed, worked_out
from planner.cli.plan.kept_plan import REPORT, Into
from planner.cli.plan.several import kept_form, say_languages
from planner.errors import CommandError
from planner.job import Job
from planner.output import Out, PaperName, plan_json, show_plan, write_whole_plan
from planner.plan import Failure, make_plan, prepare
from planner.whole_folder import whole_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is planned, and how it is told.

    ``do`` are remedies to be written, ``into_file`` the new job that they go into, ``replaced`` what options replaced.
    ``failure`` is a failed plate, which ``log`` and ``ledger`` are told, with ``said`` beside it.
    """

    path: Path
    job: Job
    out_dir: Path
    paper: PaperName
    risk: bool
    do: tuple[int, ...] = ()
    into_file: Path | None = None
    replaced: Replaced = field(default_factory=Replaced)
    failure: Failure | None = None
    log: Path | None = None
    ledger: str = ""
    said: Mapping[str, object] = field(default_factory=dict)


def planned(asked: Asked, out: Out, into: Into = whole_folder) -> int:
    """Plan a job, write its folder by ``into``, say what came out, and return the exit code."""
    job, failure = asked.job, asked.failure
    phrase: dict[str, dict[str, object]] = {}
    with out.progress() as progress:
        chapter = state_beside(asked.ledger, asked.path) if failure is not None else None
        if asked.said and chapter is None:
            raise _no_ledger()
        made = None if chapter else make_plan(prepare(job, date.today(), progress), progress)
        if chapter is not None and failure is not None:
            plain = dict(asked.said)
            after, event = failed_in(chapter, job, failure, lambda one: make_plan(prepare(one, date.today())), plain)
            append_print(log_path(job, asked.log), after.logged)
            made, phrase = after.left, {"failed": failed_json(after, failure, log_path(job, asked.log))}
            phrase["failed"]["event"] = event_json(event)
        assert made is not None
        if asked.do:
            path = done(made.job, made.remedies, asked.do, asked.into_file, by="plan", replaced=asked.replaced)
            made = make_plan(prepare(load(path), date.today(), progress), progress)
        if failure is not None and chapter is None:
            after = worked_out(made, failure, log_path(job, asked.log))
            made, phrase = after.left, {"failed": failed_json(after, failure, log_path(job, asked.log))}
        progress("writing", 0.9)
        _, papers = write_whole_plan(made, asked.out_dir, asked.paper, into=into)
    if failure is not None:
        show_failed(out.console, after, failure, log_path(job, asked.log))
        if chapter is not None:
            out.console.print(f"{event_words(event, job, failure)}\n", markup=False, soft_wrap=True)
    if asked.do:
        out.console.print(f"wrote {path} with {named_remedies(asked.do)}; it is planned again:", markup=False)
    out.emit({**plan_json(made), **phrase})
    show_plan(out.console, made, asked.out_dir / REPORT, risk=asked.risk)
    out.console.print("papers: bench/papers.pdf and bench/*.html in the same folder", markup=False)
    say_languages(out, {"": made})
    kept_form(out, papers)
    return 0 if made.verdict.passes else 1


def _no_ledger() -> Exception:
    """Return what is said where there is no ledger to be told."""
    todo = "add --ledger, or leave --spool and --even-so out"
    return CommandError(where="--failed", wrong="no ledger is there to be told", todo=todo)

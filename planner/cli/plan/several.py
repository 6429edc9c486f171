"""Several jobs planned together: a folder for each, one calendar, and the chapter's sums beside them."""

from __future__ import annotations

import json
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planner.finding import Verdict
    from planner.job import Job
    from planner.output import Out, PaperName, Written


def folder_names(names: Sequence[str]) -> tuple[str, ...]:
    """Return one folder name for each job.

    >>> folder_names(["Heron for R-07", "Heron for R-07", "../x"])
    ('Heron-for-R-07', 'Heron-for-R-07-2', 'x')
    """
    found: list[str] = []
    for name in names:
        plain = "".join(letter if letter.isalnum() or letter in "-_" else "-" for letter in name).strip("-") or "job"
        folder, count = plain, 1
        while folder in found:
            count += 1
            folder = f"{plain}-{count}"
        found.append(folder)
    return tuple(found)


def plan_together(jobs: Sequence[Job], out_dir: Path, paper: PaperName, out: Out, *, risk: bool = False) -> Verdict:
    """Plan jobs on one calendar, write each into a folder of its own, and return the chapter's verdict."""
    from planner.finding import Verdict
    from planner.output import chapter_json, show_chapter, show_risk, write_text, write_whole_plan
    from planner.plan import make_plan, on_one_calendar, prepare

    plans = {}
    for name, job in zip(folder_names([job.name for job in jobs]), jobs, strict=True):
        with out.progress() as progress:
            plans[name] = make_plan(prepare(job, date.today(), progress), progress)
    papers = {}
    with out.progress() as progress:
        progress("one calendar for all", 0.8)
        chapter = on_one_calendar(plans)
        for step, (name, made) in enumerate(chapter.plans.items()):
            progress("writing", 0.9 + 0.1 * step / len(plans))
            _, papers[name] = write_whole_plan(made, out_dir / name, paper)
    sums = chapter_json(chapter.plans, chapter.note)
    write_text(out_dir / "chapter.json", json.dumps(sums, indent=1, ensure_ascii=False, allow_nan=False) + "\n")
    out.emit(sums)
    show_chapter(out.console, sums, out_dir, chapter.plans)
    for name, made in chapter.plans.items() if risk else ():
        out.console.print(f"\n{name}", markup=False)
        show_risk(out.console, made)
    for name, written in papers.items():
        kept_form(out, written, f"{name}: ")
    return Verdict(str(sums["verdict"]))


def kept_form(out: Out, written: Written, whose: str = "") -> None:
    """Say which filled-in form was kept."""
    if written.kept is not None:
        form = "" if written.kept == written.record else f"; the new form is {written.record.name}"
        out.console.print(f"{whose}{written.kept.name} is filled in and was kept{form}", markup=False)

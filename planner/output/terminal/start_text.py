"""``fitwright start`` in a terminal: parts, questions, and the next command."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from rich.console import Console

from planner.assembly import Doubt
from planner.job import Job
from planner.output.words.paper_words import plural


def show_started(
    console: Console,
    file: str,
    folder: str,
    job: Job,
    doubts: Sequence[Doubt],
    settles: Mapping[str, int],
    answered_n: int,
) -> None:
    """Say what was written, what each part is taken for, and what is left to answer."""
    answered = f", {plural(answered_n, 'answer')} written into it" if answered_n else ""
    console.print(f"wrote {file}: {plural(len(job.parts), 'part')}{answered}", markup=False)
    duties: dict[str, list[str]] = {}
    for part in job.parts:
        sure = "" if part.duty_stated else "?"
        duties.setdefault(part.judged_duty + sure, []).append(part.name)
    for duty, names in duties.items():
        console.print(f"  {duty:7} {', '.join(names)}", markup=False)
    if not doubts:
        console.print(f"\nNothing is left to answer. Next: fitwright check {file}", markup=False)
        return
    open_n = sum(settles.get(doubt.id, 0) for doubt in doubts)
    told = f", which settle {plural(open_n, 'open point')}" if open_n else ""
    console.print(f"\n{plural(len(doubts), 'question')}{told}; the likeliest answer by name and form:", markup=False)
    for doubt in doubts:
        option = doubt.option(doubt.default)
        console.print(f"  {doubt.id}: {option.text} ({100 * option.share:.0f} %)", markup=False)
    console.print(f"\nNext: fitwright start {folder} --ask, then fitwright check {file}", markup=False)

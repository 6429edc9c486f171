"""``fitwright start`` in a terminal: parts, questions, and the next command."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly import Doubt, notes_that_stand
from planner.job import Job
from planner.output.words.few_lines import wrapped
from planner.phrases import plural


def start_lines(
    file: str,
    folder: str,
    job: Job,
    doubts: Sequence[Doubt],
    settles: Mapping[str, int],
    answered_n: int,
    *,
    anew: bool = False,
) -> list[str]:
    """Return what was written, what each part is taken for, and what is left to answer.

    ``anew`` where the unit was answered: meshes are to be measured in it before anything else is asked.
    """
    answered = f", {plural(answered_n, 'answer')} written into it" if answered_n else ""
    lines = [f"wrote {file}: {plural(len(job.parts), 'part')}{answered}"]
    duties: dict[str, list[str]] = {}
    for part in job.parts:
        duties.setdefault(part.judged_duty + ("" if part.duty_stated else "?"), []).append(part.name)
    for duty, names in duties.items():
        lines += wrapped(", ".join(names), first=f"  {duty:7} ", rest=" " * 10)
    for note in notes_that_stand(job):
        lines += wrapped(f"{note.what}: {note.value} ({note.why})", first="  ", rest=" " * 10)
    if anew:
        return [*lines, "", f"Next, measured in that unit: fitwright start {folder} --ask"]
    if not doubts:
        return [*lines, "", f"Nothing is left to answer. Next: fitwright check {file}"]
    open_n = sum(settles.get(doubt.id, 0) for doubt in doubts)
    told = f", which settle {plural(open_n, 'open point')}" if open_n else ""
    lines += ["", f"{plural(len(doubts), 'question')}{told}; the likeliest answer by name and form:"]
    for doubt in doubts:
        option = doubt.option(doubt.default)
        told = f"{option.text} ({100 * option.share:.0f} %)"
        lines += wrapped(told, first=f"  {doubt.id}: ", rest=" " * 4)
    return [*lines, "", f"Next: fitwright start {folder} --ask", f"then: fitwright check {file}"]

"""What the desk does: judging at a size at once, and one plan at a time in the background, with its progress."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from threading import Lock, Thread

from planner.assembly import by_weight, given_edits
from planner.desk.photos.photo_verdict import across_range
from planner.desk.release_desk import released
from planner.desk.step_clock import LOOK_STEPS, PLAN_STEPS, StepClock
from planner.desk.work_folder import DeskFolder
from planner.errors import CommandError, FitwrightError
from planner.finding import Verdict
from planner.job import Edit, edited, with_changes
from planner.output import (
    QuestionPictures,
    check_json,
    doubt_json,
    picture_png,
    plan_json,
    window_json,
    write_whole_plan,
)
from planner.photo import Length
from planner.plan import Prepared, make_plan, prepare, proved_remedies
from planner.remedy import Remedies
from planner.rules import check, open_doubts, settled_n
from planner.size import window

Json = dict[str, object]
THUMB_PX = (240, 176)


class DeskWork:
    """What is prepared and what is being planned, for one folder."""

    def __init__(self, folder: DeskFolder) -> None:
        self.folder = folder
        self._lock, self._preparing = Lock(), Lock()
        self._ready: tuple[tuple[object, ...], Prepared] | None = None
        self._proved: tuple[Prepared, float | None, Remedies] | None = None
        self._state: Json = {"state": "idle"}
        self._releasing = False
        self._took_s: dict[str, float] = {}
        self._planning: StepClock | None = None
        self._looking: StepClock | None = None

    def judged(self, percent: float | None, *, prove: bool = False) -> Json:
        """Return check and window at a size; None for the job's own. Meshes are measured only when they change.

        Remedies are proved where ``prove``: a verdict waits for no proof, and neither does a slider that moves.
        """
        _refuse_size(percent)
        ready = self._prepared()
        at = ready.sizing.percent if percent is None else percent
        checked, around = check(ready.bound, at), window(ready.bound.every, at)
        remedies = self._remedies(ready, percent) if prove else Remedies()
        checked = replace(checked, findings=remedies.shown(checked.findings))
        return {
            "check": check_json(checked, around, ready.sizing.measures, remedies),
            "window": window_json(around, (), at),
            "own_percent": ready.sizing.percent,
            "from": ready.sizing.why,
        }

    def remedy(self, n: int, text: str, percent: float | None, base: str | None = None) -> str:
        """Write a proved remedy into the job file, with the size that it was proved at; return the file's text.

        ``text`` is what the page shows of it: where the job has changed since, another remedy may have its number.
        """
        _refuse_size(percent)
        remedy = self._remedies(self._prepared(), percent).numbered(n)
        if remedy is None or remedy.text != text:
            raise CommandError(
                where=f"remedy {n}", wrong="the job has changed since it was shown", todo="look at the answer again"
            )
        sized = () if percent is None else (Edit(table="size", put={"percent": percent}),)
        note = f"remedy chosen {self.folder.day()}"
        return self.folder.change_job(lambda words: edited(words, (*sized, *remedy.does), note), base)

    def _remedies(self, ready: Prepared, percent: float | None) -> Remedies:
        """Return the proved remedies at a size, kept for the size that was asked for last."""
        if self._proved is None or self._proved[0] is not ready or self._proved[1] != percent:
            self._proved = (ready, percent, proved_remedies(self._at(ready, percent), moved=False))
        return self._proved[2]

    def _at(self, ready: Prepared, percent: float | None) -> Prepared:
        """Return the job prepared at a size; as it is for None."""
        if percent is None:
            return ready
        return prepare(with_changes(self.folder.job(), percent=percent), self.folder.day())

    def alone(self, mesh: str) -> Json:
        """Return what is found of one mesh by itself, as drawn and with every guess: the first answer of a folder."""
        job = self.folder.job_of(mesh)
        with self._preparing:
            ready = prepare(job, self.folder.day())
        found = check(ready.bound, 100.0)
        worst = next((one for one in found.findings if one.verdict is found.verdict), None)
        x, y, z = next(iter(ready.surveys.values())).size_mm if ready.surveys else (0.0, 0.0, 0.0)
        size = f"{x:.1f} × {y:.1f} × {z:.1f} mm"
        why = "" if worst is None or found.verdict is Verdict.GO else f"; {worst.why}"
        return {
            "verdict": found.verdict.value,
            "words": f"{size}, {found.checked_n} of {found.features_n} features{why}",
        }

    def thumbnail(self, mesh: str) -> bytes:
        """Return a small picture of one mesh, as drawn; kept as long as the mesh stays the same."""
        return picture_png(self.folder.mesh(mesh), *THUMB_PX)

    def release(self) -> Json:
        """Judge the record of the folder's plan and stamp its sheet; refuse while a plan is being made."""
        with self._lock:
            self._refuse_second()
            self._releasing = True
        try:
            return released(self.folder)
        finally:
            self._releasing = False

    def _refuse_second(self) -> None:
        """Refuse what writes into the plan's folder while something else does."""
        if self._state["state"] == "working":
            raise CommandError(where="plan", wrong="a plan is being made", todo="wait until it is done")
        if self._releasing:
            raise CommandError(where="release", wrong="the record is being read", todo="wait until that is done")

    def questions(self) -> list[Json]:
        """Return what the job leaves open, each question with its options; none where there is no job yet."""
        if not self.folder.job_words():
            return []
        ready = self._prepared()
        settles = settled_n(check(ready.bound, ready.sizing.percent))
        doubts = by_weight(open_doubts(ready.job, ready.surveys, close=ready.close), settles)
        return [doubt_json(doubt, settles.get(doubt.id, 0)) for doubt in doubts]

    def picture(self, ident: str) -> bytes:
        """Return the picture of one open question."""
        ready = self._prepared()
        found = next(
            (doubt for doubt in open_doubts(ready.job, ready.surveys, close=ready.close) if doubt.id == ident), None
        )
        if found is None:
            raise CommandError(where=repr(ident[:80]), wrong="no open question has this id", todo="reload the page")
        return QuestionPictures(ready.solids, ready.surveys).png(found)

    def answer(self, answers: Mapping[str, object], base: str | None = None) -> str:
        """Write answers into the job file with the day they were given; return its text."""
        ready = self._prepared()
        edits = given_edits(open_doubts(ready.job, ready.surveys, close=ready.close), answers, "question")
        note = f"answered {self.folder.day()}"
        return self.folder.change_job(lambda text: edited(text, edits, note), base)

    def across_range(self, row: int, length: Length) -> Json:
        """Return what a photo's range does to the verdict, were it put into the measure of a row, from 0."""
        day = self.folder.day()
        with self._preparing:
            return across_range(self.folder.job(), row, length, day, lambda job: prepare(job, day)).told()

    def start(self, percent: float | None) -> Json:
        """Begin to plan at a size; refuse while another plan is being made."""
        _refuse_size(percent)
        job = self.folder.job()
        if percent is not None:
            job = with_changes(job, percent=percent)
        with self._lock:
            self._refuse_second()
            clock = self._clock(PLAN_STEPS, len(job.parts))
            self._planning, self._state = clock, {"state": "working"}

        def work() -> None:
            try:
                made = make_plan(prepare(job, self.folder.day(), clock.report), clock.report)
                clock.report("writing report and papers")
                write_whole_plan(made, self.folder.plan)
                clock.end_step()
                facts = plan_json(made)
                told = {key: facts[key] for key in ("verdict", "scale_percent", "totals", "plates")}
                self._state = {"state": "done", "share": 1.0, **told}
            except FitwrightError as error:
                self._state = {"state": "failed", "why": str(error)}
            except Exception as error:  # noqa: BLE001  the page must hear of it, whatever it was
                self._state = {
                    "state": "failed",
                    "why": f"the plan ended unexpectedly ({type(error).__name__}: {error})",
                }

        Thread(target=work, daemon=True).start()
        return self.progress()

    def progress(self) -> Json:
        """Return how far the plan is and how long it still takes; under ``looking`` the same of parts looked at."""
        now = dict(self._state)
        if now["state"] == "working" and self._planning is not None:
            now |= self._planning.told()
        looking = self._looking
        return now if looking is None else now | {"looking": looking.told()}

    def _clock(self, steps: tuple[str, ...], parts_n: int) -> StepClock:
        """Return a clock that knows how long each step took the last time this desk did it."""
        return StepClock(steps=steps, parts_n=parts_n, took_s=self._took_s)

    def _prepared(self) -> Prepared:
        """Return the job prepared, kept as long as neither it nor a mesh changes."""
        with self._preparing:  # a hand on the slider asks faster than meshes are measured
            return self._prepared_once()

    def _prepared_once(self) -> Prepared:
        """Prepare the job unless it stands ready."""
        job = self.folder.job()
        key = (self.folder.job_words(), *((part.mesh, _stamp(part.mesh)) for part in job.parts))
        if self._ready is None or self._ready[0] != key:
            self._looking = clock = self._clock(LOOK_STEPS, len(job.parts))
            try:
                self._ready = (key, prepare(job, self.folder.day(), clock.report))
                clock.end_step()
            finally:
                self._looking = None
        return self._ready[1]


def _refuse_size(percent: float | None) -> None:
    """Refuse a size that no device has."""
    if percent is not None and not 1.0 <= percent <= 1000.0:
        raise CommandError(where="percent", wrong=f"{percent:g} % cannot be", todo="give 1 to 1000")


def _stamp(path: Path) -> tuple[int, int]:
    """Return what changes when a file does."""
    found = path.stat()
    return found.st_mtime_ns, found.st_size

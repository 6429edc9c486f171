"""The printer that nobody stated: asked about only where a part may be too large, and never the end of a device."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.assembly.doubts.printer_doubt import printer_doubt
from planner.finding import Verdict
from planner.job import Job, job_of_folder, read_job, read_printer, with_changes, with_edits
from planner.plan import Prepared, prepare
from planner.rules import check
from tests.shapes import cuboid, written

TODAY = date(2026, 12, 1)


def _folder(tmp_path: Path, long_mm: float) -> Job:
    """Return the job of a folder with one bar."""
    written(cuboid(long_mm, 40, 8), tmp_path / "bar.stl")
    return job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path))


def _bed(ready: Prepared) -> tuple[Verdict, str]:
    """Return what the rule of the bed says, and which question it asks."""
    found = next(f for f in check(ready.bound, ready.sizing.percent).findings if f.rule == "bed.over")
    return found.verdict, found.question_id


def test_a_bar_too_long_for_a_bed_that_nobody_stated_is_a_question(tmp_path: Path) -> None:
    """320 mm lie on no bed of 220 mm, but nobody said that it is printed there: a hold; stated, it is the end."""
    job = _folder(tmp_path, 320.0)

    assert _bed(prepare(job, TODAY)) == (Verdict.HOLD, "printer")
    assert _bed(prepare(with_changes(job, printer="bench-220"), TODAY)) == (Verdict.NO_GO, "")
    assert _bed(prepare(with_changes(job, printer="large-350"), TODAY)) == (Verdict.GO, "")


def test_an_answer_settles_it(tmp_path: Path) -> None:
    """Each answer is a printer, and with the one whose bed is larger the bar fits."""
    ready = prepare(_folder(tmp_path, 320.0), TODAY)
    doubt = printer_doubt(ready.job, ready.surveys)
    assert doubt is not None
    assert doubt.default == "bench-220"
    after = with_edits(ready.job, doubt.option("large-350").edits)

    assert "printer" not in after.guessed_keys
    assert _bed(prepare(after, TODAY)) == (Verdict.GO, "")


def test_small_parts_ask_for_no_printer(tmp_path: Path) -> None:
    """A bar of 90 mm fits the bed of any printer that ships."""
    ready = prepare(_folder(tmp_path, 90.0), TODAY)

    assert printer_doubt(ready.job, ready.surveys) is None


@pytest.mark.parametrize("stated", [True, False])
def test_a_job_file_keeps_what_was_guessed(tmp_path: Path, stated: bool) -> None:
    """The mark is written, and read back, until somebody takes it away."""
    written(cuboid(320, 40, 8), tmp_path / "bar.stl")
    guessed = "" if stated else 'guessed = ["printer"]\n'
    text = (
        f'[job]\nname = "x"\nprinter = "bench-220"\n{guessed}[[part]]\nname = "bar"\nmesh = "bar.stl"\nduty = "load"\n'
    )
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    verdict, _ = _bed(prepare(read_job(tmp_path / "job.toml"), TODAY))

    assert verdict is (Verdict.NO_GO if stated else Verdict.HOLD)

"""The desk's folder: a job that two change at once, and files that are not what they ought to be."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from planner.desk import DeskFolder
from planner.desk.work_folder import ChangedError, version_of
from planner.errors import CommandError, JobError
from tests.shapes import cuboid, written

JOB = """[job]
name = "two"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"

[[part]]
name = "box"
mesh = "parts/box.stl"
count = 1
duty = "cover"
"""


@pytest.fixture(name="place")
def _place(tmp_path: Path) -> Path:
    (tmp_path / "parts").mkdir()
    written(cuboid(20, 10, 8), tmp_path / "parts" / "box.stl")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return tmp_path


def _desk(place: Path) -> DeskFolder:
    from datetime import date

    return DeskFolder(place, lambda: date(2026, 12, 1))


def test_who_comes_second_is_told_both_texts_and_loses_nothing(place: Path) -> None:
    """Two desks on one folder change the same job: the first is kept, the second gets its own text and the other's."""
    one, other = _desk(place), _desk(place)
    base = one.told(one.job_words())
    assert base == other.told(other.job_words())
    first = one.change_job(lambda text: text.replace("count = 1", "count = 2"), base)
    with pytest.raises(ChangedError, match="has changed since this page") as late:
        other.change_job(lambda text: text.replace('"cover"', '"load"'), base)

    assert (place / "job.toml").read_text(encoding="utf-8") == first == late.value.theirs
    assert late.value.yours == JOB.replace('"cover"', '"load"')
    merged = first.replace('"cover"', '"load"')
    assert other.save_job(merged, version_of(first)) == merged


def test_of_many_changes_at_once_every_one_is_kept_or_refused(place: Path) -> None:
    """Twenty edits through two desks: each that is accepted stands in the file, each other one is told."""
    desks = [_desk(place), _desk(place)]

    def change(n: int) -> int:
        desk = desks[n % 2]
        base = desk.told(desk.job_words())
        try:
            desk.change_job(lambda text: f"{text}# edit {n}\n", base)
        except ChangedError as late:
            assert f"# edit {n}\n" in late.yours
            return -1
        return n

    with ThreadPoolExecutor(4) as pool:
        kept = [n for n in pool.map(change, range(20)) if n >= 0]

    text = (place / "job.toml").read_text(encoding="utf-8")
    assert kept
    assert [n for n in range(20) if f"# edit {n}\n" in text] == kept


def test_a_change_without_a_version_is_made_to_what_stands_there(place: Path) -> None:
    """A program that names none changes the text as it is, one change after the other."""
    desk = _desk(place)
    for n in range(3):
        desk.change_job(lambda text, n=n: f"{text}# {n}\n")  # type: ignore[misc]

    assert desk.job_words() == JOB + "# 0\n# 1\n# 2\n"


def test_a_job_that_is_no_text_is_one_sentence(place: Path) -> None:
    """An editor that saves in another encoding: the desk says so."""
    (place / "job.toml").write_bytes(JOB.replace("two", "zw\u00f6lf").encode("latin-1"))

    with pytest.raises(JobError, match="not UTF-8"):
        _desk(place).job_words()


def test_a_chapter_planned_here_is_shown_and_nothing_beside_it(place: Path) -> None:
    """The page and the reports that it links are found; a path that leads out of the chapter's plan is refused."""
    desk = _desk(place)
    assert not desk.has_chapter()
    (place / "chapter" / "R-07").mkdir(parents=True)
    for name in ("chapter.html", "R-07/report.html"):
        (place / "chapter" / name).write_text(name, encoding="utf-8")
        assert desk.of_chapter(name).read_text(encoding="utf-8") == name

    assert desk.has_chapter()
    for outside in ("../job.toml", "../../secret.toml", "nothing.html"):
        with pytest.raises(CommandError):
            desk.of_chapter(outside)

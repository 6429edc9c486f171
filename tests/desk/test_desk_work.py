"""What the desk does: it judges at any size at once, and makes one plan at a time, telling how far it is."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.desk import DeskFolder
from planner.desk.desk_work import DeskWork
from planner.errors import CommandError
from tests.shapes import bored_plate, written

TEXT = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "parts/a.stl"\nduty = "load"\npose = [0, 0, -1]\n'


@pytest.fixture(name="work")
def _work(tmp_path: Path) -> DeskWork:
    """Return the work on a folder with one bored plate."""
    (tmp_path / "parts").mkdir()
    written(bored_plate(40, 30, 6, [(20, 15, 5.3, 48)]), tmp_path / "parts" / "a.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    return DeskWork(DeskFolder(tmp_path, lambda: date(2026, 12, 1)))


def test_a_mesh_is_measured_once_for_all_sizes_and_again_when_the_job_changes(work: DeskWork) -> None:
    """Two sizes, one preparation; each answer is of its own size, and a changed job is prepared anew."""
    answers: list[Any] = [work.judged(percent) for percent in (50.0, 200.0, None)]
    first = work._prepared()

    assert [one["check"]["scale_percent"] for one in answers] == [50.0, 200.0, 100.0]
    assert work._prepared() is first
    work.folder.job_file.write_text(TEXT.replace('"x"', '"y"'), encoding="utf-8")
    assert work._prepared() is not first


@pytest.mark.parametrize("percent", [0.0, 0.5, 1000.5, float("nan")])
def test_a_size_that_no_device_has_is_refused(work: DeskWork, percent: float) -> None:
    """From 1 to 1000 %, for a verdict and for a plan; no plan is begun."""
    for ask in (work.judged, work.start):
        with pytest.raises(CommandError):
            ask(percent)
    assert work.progress() == {"state": "idle"}


def test_a_second_plan_waits_for_the_first(work: DeskWork) -> None:
    """Asked while one is made, it is refused in one sentence."""
    work._state = {"state": "working", "what": "packing plates", "share": 0.5}
    with pytest.raises(CommandError, match="a plan is being made"):
        work.start(None)


def test_no_picture_is_drawn_of_a_question_that_nobody_asks(work: DeskWork) -> None:
    """Its id is refused, however long."""
    with pytest.raises(CommandError, match="no open question has this id"):
        work.picture("x" * 500)


def test_nothing_else_writes_while_a_release_does(work: DeskWork) -> None:
    """A plan and a second release wait: both write the papers."""
    work._releasing = True
    for ask in (work.release, lambda: work.start(None)):
        with pytest.raises(CommandError, match="the record is being read"):
            ask()


def test_a_mesh_has_a_small_picture_and_a_name_that_is_not_here_has_none(work: DeskWork) -> None:
    """A PNG (ISO/IEC 15948: its first eight bytes) of the size that the page asks for."""
    assert work.thumbnail("a.stl")[:8] == b"\x89PNG\r\n\x1a\n"
    with pytest.raises(CommandError, match="no such mesh"):
        work.thumbnail("../job.toml")

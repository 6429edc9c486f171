"""A job without a ledger keeps a print log: a plate is told done or failed at the desk, and `calibrate` reads the line."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.calibrate import read_log
from planner.desk import DeskFolder
from planner.desk.events.print_log_desk import LOG, PrintLogDesk
from planner.errors import FitwrightError
from planner.output import plan_json
from planner.plan import make_plan, prepare
from tests.desk.test_desk_work import TEXT
from tests.shapes import bored_plate, written

DAY = date(2026, 12, 1)

PLAN = {
    "job": "Two plates",
    "plates": [
        {"number": 1, "duration_s": 7200.0, "mass_g": 40.0, "placements": [{"part": "jaw"}, {"part": "jaw"}]},
        {"number": 2, "duration_s": 3600.0, "mass_g": None, "placements": [{"part": "cap"}]},
    ],
}


@pytest.fixture(name="desk")
def _desk(tmp_path: Path) -> PrintLogDesk:
    """Return the log of a folder with a plan of two plates."""
    (tmp_path / "plan").mkdir()
    (tmp_path / "plan" / "plan.json").write_text(json.dumps(PLAN), encoding="utf-8")
    (tmp_path / "plan" / "report.html").write_text("", encoding="utf-8")
    return PrintLogDesk(DeskFolder(tmp_path, lambda: DAY))


def test_done_and_failed_plates_become_lines_that_calibrate_reads(desk: PrintLogDesk) -> None:
    """150 min are 2.5 h; without named pieces all of a failed plate are lost; the newest line is shown first."""
    done = desk.tell({"plate": 1, "outcome": "done", "ran_min": "150", "grams": "43,5"})
    failed = desk.tell({"plate": 2, "outcome": "failed", "ran_min": "30", "cause": "loose", "grams": "", "lost": ""})
    one, other = read_log(desk.folder.path / LOG)

    assert (one.failed, one.planned_h, one.real_h, one.planned_g, one.real_g) == (False, 2.0, 2.5, 40.0, 43.5)
    assert (one.on, one.lost) == ((("jaw", 2),), ())
    assert (other.failed, other.failed_at_h, other.cause, other.lost) == (True, 0.5, "loose", (("cap", 1),))
    assert "2.5 h of 2.0 h planned, 44 g, 40 g planned" in done["words"]
    assert "To print again: cap × 1" in failed["words"]
    assert [line.split(",")[1] for line in failed["state"]["lines"]] == [" plate 2", " plate 1"]


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"plate": 3, "outcome": "done"}, "no plate '3'"),
        ({"plate": True, "outcome": "done"}, "no plate 'True'"),
        ({"plate": 1, "outcome": "well"}, "say done or failed"),
        ({"plate": 1, "outcome": "done", "grams": "-1"}, "'-1' cannot be"),
        ({"plate": 1, "outcome": "done", "ran_min": "nan"}, "'nan' cannot be"),
        ({"plate": 1, "outcome": "failed", "cause": "ghosts"}, "'ghosts' is not known"),
        ({"plate": 1, "outcome": "failed", "cause": "loose", "lost": "jaw:3"}, "jaw × 3 are not on this plate"),
        ({"plate": 1, "outcome": "done", "who": "me"}, "no such field"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(
    desk: PrintLogDesk, fields: dict[str, Any], said: str
) -> None:
    """One sentence each, and no log begins."""
    with pytest.raises(FitwrightError, match=said):
        desk.tell(fields)
    assert not (desk.folder.path / LOG).exists()


def test_a_plate_is_not_logged_as_done_twice_by_a_second_click(desk: PrintLogDesk) -> None:
    """It is refused until somebody says that it was printed again."""
    desk.tell({"plate": 1, "outcome": "done"})
    with pytest.raises(FitwrightError, match="logged as done"):
        desk.tell({"plate": 1, "outcome": "done"})
    desk.tell({"plate": 1, "outcome": "done", "again": True})

    assert len(read_log(desk.folder.path / LOG)) == 2


def test_a_chapter_with_a_ledger_is_told_there(desk: PrintLogDesk) -> None:
    """No form, and a line that comes all the same is refused."""
    (desk.folder.path / "chapter.toml").write_text('[chapter]\nledger = "chapter.db"\n', encoding="utf-8")

    assert desk.state()["plates"] == []
    with pytest.raises(FitwrightError, match="has a ledger"):
        desk.tell({"plate": 1, "outcome": "done"})


def test_a_plan_as_it_is_written_can_be_logged(desk: PrintLogDesk, tmp_path: Path) -> None:
    """One bored plate: the line's hours are those that its plan tells."""
    written(bored_plate(40, 30, 6, [(20, 15, 5.3, 48)]), tmp_path / "parts" / "a.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    plan = make_plan(prepare(desk.folder.job(), DAY))
    (tmp_path / "plan" / "plan.json").write_text(json.dumps(plan_json(plan)), encoding="utf-8")

    desk.tell({"plate": 1, "outcome": "done"})
    (line,) = read_log(tmp_path / LOG)

    assert line.plate == f"{plan.job.name}, plate 1"
    assert line.planned_h == pytest.approx(plan.plates[0].duration_s.value / 3600.0, abs=0.01)

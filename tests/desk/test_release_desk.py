"""Release on the desk: the record of the folder's plan, judged and stamped as the command does it."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.desk import DeskFolder
from planner.desk.release_desk import released
from planner.errors import CommandError
from planner.output import write_whole_plan
from planner.plan import make_plan, prepare
from tests.desk.test_desk_work import TEXT
from tests.shapes import bored_plate, written

DAY = date(2026, 12, 1)


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> DeskFolder:
    """Return a folder with one bored plate."""
    written(bored_plate(40, 30, 6, [(20, 15, 5.3, 48)]), tmp_path / "parts" / "a.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    return DeskFolder(tmp_path, lambda: DAY)


def test_a_release_is_judged_as_by_the_command_and_lists_what_is_missing(folder: DeskFolder) -> None:
    """Without a plan it is refused; with an empty record it is held, each item told, and the sheet is stamped."""
    with pytest.raises(CommandError, match="plan the job first"):
        released(folder)
    write_whole_plan(make_plan(prepare(folder.job(), DAY)), folder.plan)
    before = (folder.plan / "bench" / "papers.pdf").read_bytes()

    told: Any = released(folder)

    assert told["released"] is False
    assert told["words"].startswith(f"Not released. {len(told['missing'])} items are missing in plan/bench/record")
    assert all(one["item"] and one["todo"] for one in told["missing"])
    assert (folder.plan / "bench" / "papers.pdf").read_bytes() != before

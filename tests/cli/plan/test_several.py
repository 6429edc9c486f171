"""Several jobs: a folder each, one calendar, and a sentence that names the path of the one that is wrong."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path
from typing import Any

import pytest

import planner.plan
from tests.cli.running import run


def test_plan_of_several_jobs_writes_a_chapter(folder: Path, tmp_path: Path) -> None:
    """Two jobs give two folders and their sums."""
    run("start", folder)
    done = run("plan", folder / "job.toml", folder / "job.toml", "-o", tmp_path / "out", "--quiet")
    sums: Any = json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))

    assert done.returncode in (0, 1), done.stderr
    assert done.stdout == ""
    assert len(sums["jobs"]) == 2
    assert len(list((tmp_path / "out").glob("*/report.html"))) == 2


def test_what_is_wrong_with_one_of_several_jobs_stops_no_other(folder: Path, tmp_path: Path) -> None:
    """A key that cannot be, a mesh that is not there and one that is no mesh: each is told with its path, the sound job is planned."""
    run("start", folder)
    for name in ("key", "gone", "torn"):
        shutil.copytree(folder, tmp_path / name)
    with (tmp_path / "key" / "job.toml").open("a", encoding="utf-8") as file:
        file.write("[nonsense]\n")
    (tmp_path / "gone" / "cuff.stl").unlink()
    torn = tmp_path / "torn" / "job.toml"
    torn.write_text(re.sub('sha256 = ".*"', "", torn.read_text(encoding="utf-8")), encoding="utf-8")
    (tmp_path / "torn" / "cuff.stl").write_bytes(b"solid nothing")
    bad = [tmp_path / name / "job.toml" for name in ("key", "gone", "torn")]
    done = run("plan", bad[0], folder / "job.toml", *bad[1:], "-o", tmp_path / "out", "--quiet")
    sums: Any = json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))

    assert done.returncode == 1, done.stderr
    assert sums["verdict"] in ("hold", "no-go")
    assert [row["path"] for row in sums["unread"]] == [str(path) for path in bad]
    assert len(sums["jobs"]) == len(list((tmp_path / "out").glob("*/report.html"))) == 1
    assert all(str(path) in done.stderr for path in bad)


def test_where_no_job_can_be_read_nothing_is_written(tmp_path: Path) -> None:
    """Two jobs with a key that cannot be: one sentence with the first one's path, and exit code 2."""
    paths = [tmp_path / name / "job.toml" for name in ("a", "b")]
    for path in paths:
        path.parent.mkdir()
        path.write_text("[nonsense]\n", encoding="utf-8")
    done = run("plan", *paths, "-o", tmp_path / "out")

    assert done.returncode == 2
    assert str(paths[0]) in done.stderr
    assert not (tmp_path / "out").exists()


def test_what_is_told_while_a_plan_is_made_is_planned_from_too(chapter: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A plate is told done while the chapter is planned again: it is made once more, nothing printed is in it, no id is new."""
    run("chapter", ".", "-q", cwd=chapter)
    calendar = planner.plan.on_one_calendar
    tells = ["R-07.1"]

    def told_meanwhile(*asked: Any) -> Any:
        """Tell that a plate is done, once, while the plan is made."""
        if tells:
            assert run("done", tells.pop(), cwd=chapter).returncode == 0
        return calendar(*asked)

    monkeypatch.setattr(planner.plan, "on_one_calendar", told_meanwhile)
    done = run("chapter", ".", "--json", "-", cwd=chapter)

    assert [row["id"] for row in json.loads(done.stdout)["schedule"]] == ["R-07.2"]
    assert "R-07.1 done; the plan is made again" in done.stderr
    rows = json.loads(run("ledger", "ledger.db", "show", "plates", "--json", "-", cwd=chapter).stdout)["rows"]
    assert {row["id"]: row["state"] for row in rows} == {"R-07.1": "done", "R-07.2": "planned"}

"""A chapter planned from its ledger: what is printed stays printed, and nothing lies in the past."""

from __future__ import annotations

import json
import shutil
from collections import Counter
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from planner.cli.ledger.chapter_printers import AllBlockedError
from planner.cli.ledger.chapter_state import ChapterState
from planner.ledger import made, told
from planner.plan import no_progress
from tests.cli.ledger.chapters.chapter_kinds import kinds
from tests.cli.ledger.chapters.chapter_rounds import less_effort, wrong_in
from tests.cli.running import run
from tests.conftest import MakeJob
from tests.ledger.telling import DAY, tell
from tests.plan.jobs import job_text
from tests.shapes import cuboid


def _planned(chapter: Path) -> Any:
    """Plan the chapter in its folder, and return its sums."""
    done = run("chapter", ".", "-o", "out", "--json", "-", cwd=chapter)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def _plates(chapter: Path) -> dict[str, tuple[str, Counter[str]]]:
    """Return what the ledger says of every plate."""
    rows = json.loads(run("ledger", "ledger.db", "show", "plates", "--json", "-", cwd=chapter).stdout)["rows"]
    return {row["id"]: (row["state"], Counter(row["pieces"])) for row in rows}


def test_what_is_printed_is_not_planned_again_after_any_failure(chapter: Path) -> None:
    """By hand: a base and two blocks, each block lost once more: every piece is planned until it is printed, none is afterwards."""
    begun = datetime.now().replace(second=0, microsecond=0)  # noqa: DTZ005  the clock on the wall
    first = _planned(chapter)
    ids = {row["id"] for row in first["schedule"]}
    assert ids == {"R-07.1", "R-07.2"} == set(_plates(chapter))
    cards = (chapter / "out" / "blocks-and-a-base" / "bench" / "plate-cards.html").read_text(encoding="utf-8")
    assert all(f"QR code of {name}" in cards for name in ids)
    assert all(f"Start {name}" in (chapter / "out" / "chapter.html").read_text(encoding="utf-8") for name in ids)
    assert all(datetime.fromisoformat(row["start"]) >= begun for row in first["schedule"])
    blocks = next(name for name, (_, pieces) in _plates(chapter).items() if pieces == {"block": 2})
    base = next(iter(ids - {blocks}))
    assert {row["id"] for row in _planned(chapter)["schedule"]} == ids  # asked again, they keep their ids

    told = run("failed", blocks, "--at", "5min", "--cause", "loose", "--lost", "block:1", cwd=chapter)
    assert told.returncode == 0, told.stderr
    assert run("done", base, cwd=chapter).returncode == 0
    second = _planned(chapter)
    assert [row["id"] for row in second["schedule"]] == ["R-07.3"]
    assert _plates(chapter)["R-07.3"] == ("planned", Counter(block=1))

    assert run("failed", "R-07.3", "--at", "5min", "--cause", "loose", cwd=chapter).returncode == 0
    third = _planned(chapter)
    assert [row["id"] for row in third["schedule"]] == ["R-07.4"]
    assert run("done", "R-07.4", cwd=chapter).returncode == 0
    last = _planned(chapter)
    assert last["schedule"] == []
    assert last["jobs"][0]["plates"] == 0
    states = {name: state for name, (state, _) in _plates(chapter).items()}
    assert states == {blocks: "failed", base: "done", "R-07.3": "failed", "R-07.4": "done"}

    (spool,) = json.loads(run("ledger", "ledger.db", "show", "spools", "--json", "-", cwd=chapter).stdout)["rows"]
    prints = json.loads(run("ledger", "ledger.db", "show", "printers", "--json", "-", cwd=chapter).stdout)["rows"][0]
    assert prints["prints"] == 4
    assert prints["failed"] == 2
    assert abs(600.0 - spool["left_g"] - prints["used_g"]) < 1e-6
    assert first["spools"][0]["left_g"] == 600.0


def test_pieces_of_another_size_are_printed_again_and_a_handed_device_is_not(chapter: Path) -> None:
    """By hand: all is printed, then the job grows to 110 %: all is planned under new ids and told; handed over, nothing is."""
    for row in _planned(chapter)["schedule"]:
        assert run("done", row["id"], cwd=chapter).returncode == 0
    path = chapter / "r07" / "job.toml"
    path.write_text(path.read_text(encoding="utf-8").replace("percent = 100.0", "percent = 110.0"), encoding="utf-8")
    larger = _planned(chapter)
    assert {row["id"] for row in larger["schedule"]} == {"R-07.3", "R-07.4"}
    assert {row["was"] for row in larger["changes"]} == {"base x 1 printed", "block x 2 printed"}

    # all printers blocked: what is to be printed waits, held with what to do, and what is over does not
    assert run("blocked", "bench-220", "--why", "new hot end", cwd=chapter).returncode == 0
    waits = _planned(chapter)
    assert (waits["verdict"], waits["jobs"], waits["schedule"]) == ("hold", [], [])
    assert "new hot end" in waits["unread"][0]["why"]
    assert "fitwright measured bench-220" in waits["unread"][0]["why"]

    assert run("handed", "R-07", "--even-so", cwd=chapter).returncode == 0
    handed = _planned(chapter)
    assert (handed["schedule"], [job["recipient"] for job in handed["jobs"]]) == ([], ["R-07"])


def test_a_job_without_a_code_is_held_and_two_with_one_are_refused(chapter: Path) -> None:
    """The ledger knows people by code alone: a job that has none is told so, and one code is one job."""
    shutil.copytree(chapter / "r07", chapter / "r08")
    twice = run("chapter", ".", "-o", "out", cwd=chapter)
    assert twice.returncode == 2
    assert "one code" in twice.stderr
    text = (chapter / "r08" / "job.toml").read_text(encoding="utf-8").replace('recipient = "R-07"\n', "")
    (chapter / "r08" / "job.toml").write_text(text, encoding="utf-8")
    sums = _planned(chapter)

    assert sums["verdict"] == "hold"
    assert "recipient" in sums["unread"][0]["why"]
    assert [job["recipient"] for job in sums["jobs"]] == ["R-07"]


def test_another_kind_of_printer_stands_in_only_where_it_prints_the_job(tmp_path: Path, make_job: MakeJob) -> None:
    """By hand: bench-220 is blocked; the bed of 180 mm takes a square of 40 mm, and one of 190 mm waits: a hold, no "no"."""
    ledger = made(str(tmp_path / "ledger.db"))
    rows = [tell("printer", n, profile=n, attended=[], calibrated_until=None) for n in ("bench-220", "small-180")]
    told(ledger, [*rows, tell("blocked", "bench-220", why="new hot end")], DAY)
    state = ChapterState(engine=ledger, now=DAY)
    for side_mm in (40.0, 190.0):
        text = job_text(("block", 1, "cover")).replace("[size]", 'recipient = "R-07"\n[size]')
        job = make_job(text, block=cuboid(side_mm, side_mm, 4))
        if side_mm == 40.0:
            plan = state.planned(job, DAY.date(), no_progress)
            assert {plate.printer or plan.job.printer.name for plate in plan.plates} == {"small-180"}
            continue
        with pytest.raises(AllBlockedError, match=r"wait.*bench-220 \(new hot end\); small-180 cannot stand in: block"):
            state.planned(job, DAY.date(), no_progress)


def test_random_chapters_hold_before_a_checker_of_their_own(tmp_path: Path) -> None:
    """Two random chapters with events in between: no overlap, nothing in the past, no gram, piece or person twice.

    One is searched as any chapter is, the other, which is larger, with a tenth of that: it holds of any calendar.
    """
    plans = kinds(tmp_path)
    assert list(wrong_in(1, plans, tmp_path, rounds_n=1)) == []
    with less_effort():
        assert list(wrong_in(2, plans, tmp_path, rounds_n=1)) == []

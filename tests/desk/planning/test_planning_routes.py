"""A chapter planned at the desk: the same plan as the command's; of two desks the second is told, and keeps its text."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from planner.cli.plan.desk_chapter import chapter_filled, chapter_planned
from planner.desk import ChapterWork, DeskFolder, desk_app
from tests.cli.conftest import JOB
from tests.cli.small_chapter import CHAPTER
from tests.shapes import bored_plate, cuboid, written

PORT, TOKEN = 8766, "a-token-of-the-test"
WORK = ChapterWork(plan=chapter_planned, fill=chapter_filled)


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a chapter's folder of one recipient, its ledger not made yet."""
    job = tmp_path / "r07"
    job.mkdir()
    written(bored_plate(40, 30, 4, []), job / "base.stl")
    written(cuboid(30, 20, 4), job / "block.stl")
    (job / "job.toml").write_text(JOB, encoding="utf-8")
    (tmp_path / "chapter.toml").write_text(CHAPTER, encoding="utf-8")
    return tmp_path


@pytest.fixture(name="desk")
def _desk(folder: Path) -> Iterator[TestClient]:
    with _opened(folder) as client:
        yield client


def _opened(folder: Path, work: ChapterWork | None = WORK) -> TestClient:
    """Return a desk of its own on a folder."""
    client = TestClient(
        desk_app(DeskFolder(folder, date.today), TOKEN, PORT, work), base_url=f"http://127.0.0.1:{PORT}"
    )
    client.get("/", params={"token": TOKEN})
    return client


def _planned(desk: TestClient) -> Any:
    """Wait for a plan, and return what came out."""
    until = time.monotonic() + 120.0
    while (told := desk.get("/planning/progress").json())["state"] == "working" and time.monotonic() < until:
        time.sleep(0.05)
    return told


def test_a_chapter_is_planned_and_planned_again_from_the_desk(desk: TestClient, folder: Path) -> None:
    """The ledger made, the chapter planned, a plate done, planned again: one plate is left, and no id is new.

    A second desk that had loaded the page before is told of the plan, and plans all the same where it says so.
    """
    other = _opened(folder)
    assert desk.get("/planning/state").json()["files"] == ["chapter.toml", "r07/job.toml"]
    assert "init" in desk.get("/planning/state").json()["ledger"]
    made = desk.post("/planning/ledger").json()
    assert "made and filled" in made["told"]
    seen = {"If-Match": f'"{made["seen"]}"'}
    assert desk.post("/planning/plan", headers=seen).status_code == 200
    first = _planned(desk)
    assert [row["plates"] for row in first["jobs"]] == [2], first
    assert desk.get("/chapter/chapter.html").status_code == 200

    late = other.post("/planning/plan", headers=seen)
    assert (late.status_code, late.json()["jobs"], len(late.json()["when"])) == (412, ["R-07"], 1)
    assert other.post("/ledger/done", json={"subject": "R-07.1"}).status_code == 200
    now = {"If-Match": f'"{late.json()["seen"]}"'}
    assert other.post("/planning/plan", headers=now).status_code == 200
    assert [row["plates"] for row in _planned(other)["jobs"]] == [1]
    sums = json.loads((folder / "chapter" / "chapter.json").read_text(encoding="utf-8"))
    assert [row["id"] for row in sums["schedule"]] == ["R-07.2"]
    assert "nothing new" in desk.post("/planning/ledger").json()["told"]


def test_the_second_of_two_desks_is_told_and_keeps_its_text(desk: TestClient, folder: Path) -> None:
    """Both load a job; one moves its deadline, the other its note: refused with both texts, and taken over the new one."""
    other, name = _opened(folder), "/planning/text/r07/job.toml"
    was = desk.get(name).json()
    base = {"If-Match": f'"{was["version"]}"'}
    mine = was["text"] + "deadline = 2031-01-31\n"
    assert desk.put(name, json={"text": mine}, headers=base).status_code == 200
    yours = was["text"].replace("percent = 100.0", "percent = 110.0")
    late = other.put(name, json={"text": yours}, headers=base)

    assert late.status_code == 412
    assert (late.json()["yours"], late.json()["text"]) == (yours, mine)
    assert (folder / "r07" / "job.toml").read_text(encoding="utf-8") == mine
    again = {"If-Match": f'"{late.json()["version"]}"'}
    assert other.put(name, json={"text": yours}, headers=again).json()["text"] == yours


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("chapter.toml", "[chapter]\nledger = '../other.db'\n"),
        ("chapter.toml", "[[person]]\ncode = 'Anna Smith'\nroles = ['maker']\n"),
        ("chapter.toml", "no = [toml"),
        ("r07/job.toml", JOB.replace("base.stl", "../../secret.stl")),
        ("r07/job.toml", JOB.replace("base.stl", "/etc/passwd")),
        ("r07/job.toml", "[nonsense]\n"),
        ("r08/job.toml", JOB),
        ("../job.toml", JOB),
    ],
)
def test_what_cannot_be_is_one_sentence_and_no_file_changes(
    desk: TestClient, folder: Path, name: str, text: str
) -> None:
    """A ledger or a mesh outside of the folder, a name for a code, no TOML, an unknown key, a file that is none: refused."""
    before = {path: path.read_bytes() for path in folder.rglob("*.toml")}
    answer = desk.put(f"/planning/text/{name.replace('..', '%2e%2e')}", json={"text": text})

    assert answer.status_code == 400, answer.text
    assert len(answer.json()["error"].splitlines()) == 1
    assert {path: path.read_bytes() for path in folder.rglob("*.toml")} == before


def test_what_fails_is_told_to_the_page_and_a_second_plan_waits(folder: Path) -> None:
    """While one is made a second is refused; one that ends with an error says which; a desk without work says so."""
    going = [True]

    def slow(_: Path, report: Any) -> Any:
        """Report once, and fail when told to."""
        report("packing", 0.5)
        while going:
            time.sleep(0.01)
        raise ValueError("the bed is too hot")

    desk = _opened(folder, ChapterWork(plan=slow, fill=chapter_filled))
    desk.post("/planning/ledger")
    assert desk.post("/planning/plan").status_code == 200
    assert "is being planned" in desk.post("/planning/plan").json()["error"]
    going.clear()
    assert "the bed is too hot" in _planned(desk)["why"]
    assert "run fitwright chapter" in _opened(folder, None).post("/planning/plan").json()["error"]


def test_the_page_is_served_to_who_has_the_token_alone(desk: TestClient, folder: Path) -> None:
    """Page and script come with the desk's policy; nothing without the token."""
    assert "Plan the chapter" in desk.get("/planning").text
    assert desk.get("/static/planning.js").status_code == 200
    stranger = TestClient(
        desk_app(DeskFolder(folder, date.today), TOKEN, PORT, WORK), base_url=f"http://127.0.0.1:{PORT}"
    )
    assert stranger.get("/planning/state").status_code == 401
    assert stranger.post("/planning/plan").status_code == 401

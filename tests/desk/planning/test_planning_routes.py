"""A chapter planned at the desk: the same plan as the command's, and a page for who has the token alone."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path

from starlette.testclient import TestClient

from planner.desk import DeskFolder, desk_app
from tests.desk.planning.planning_desks import PORT, TOKEN, WORK, desk_on, planned_there


def test_a_chapter_is_planned_and_planned_again_from_the_desk(desk: TestClient, folder: Path) -> None:
    """The ledger made, the chapter planned, a plate done, planned again: one plate is left, and no id is new.

    A second desk that had loaded the page before is told of the plan, and plans all the same where it says so.
    """
    other = desk_on(folder)
    assert desk.get("/planning/state").json()["files"] == ["chapter.toml", "r07/job.toml"]
    assert "init" in desk.get("/planning/state").json()["ledger"]
    made = desk.post("/planning/ledger").json()
    assert "made and filled" in made["told"]
    seen = {"If-Match": f'"{made["seen"]}"'}
    assert desk.post("/planning/plan", headers=seen).status_code == 200
    first = planned_there(desk)
    assert [row["plates"] for row in first["jobs"]] == [2], first
    assert desk.get("/chapter/chapter.html").status_code == 200

    late = other.post("/planning/plan", headers=seen)
    assert (late.status_code, late.json()["jobs"], len(late.json()["when"])) == (412, ["R-07"], 1)
    assert other.post("/ledger/done", json={"subject": "R-07.1"}).status_code == 200
    now = {"If-Match": f'"{late.json()["seen"]}"'}
    assert other.post("/planning/plan", headers=now).status_code == 200
    assert [row["plates"] for row in planned_there(other)["jobs"]] == [1]
    sums = json.loads((folder / "chapter" / "chapter.json").read_text(encoding="utf-8"))
    assert [row["id"] for row in sums["schedule"]] == ["R-07.2"]
    assert "nothing new" in desk.post("/planning/ledger").json()["told"]


def test_the_page_is_served_to_who_has_the_token_alone(desk: TestClient, folder: Path) -> None:
    """Page and script come with the desk's policy; nothing without the token."""
    assert "Plan the chapter" in desk.get("/planning").text
    assert desk.get("/static/planning.js").status_code == 200
    stranger = TestClient(
        desk_app(DeskFolder(folder, date.today), TOKEN, PORT, WORK), base_url=f"http://127.0.0.1:{PORT}"
    )
    assert stranger.get("/planning/state").status_code == 401
    assert stranger.post("/planning/plan").status_code == 401

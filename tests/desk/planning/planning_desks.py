"""Desks that plan a chapter, in this process."""

from __future__ import annotations

import time
from datetime import date
from pathlib import Path
from typing import Any

from starlette.testclient import TestClient

from planner.cli.plan.desk_chapter import chapter_filled, chapter_planned
from planner.desk import ChapterWork, DeskFolder, desk_app

PORT, TOKEN = 8766, "a-token-of-the-test"
WORK = ChapterWork(plan=chapter_planned, fill=chapter_filled)


def desk_on(folder: Path, work: ChapterWork | None = WORK) -> TestClient:
    """Return a desk of its own on a folder."""
    client = TestClient(
        desk_app(DeskFolder(folder, date.today), TOKEN, PORT, work), base_url=f"http://127.0.0.1:{PORT}"
    )
    client.get("/", params={"token": TOKEN})
    return client


def planned_there(desk: TestClient) -> Any:
    """Wait for a plan, and return what came out."""
    until = time.monotonic() + 120.0
    while (told := desk.get("/planning/progress").json())["state"] == "working" and time.monotonic() < until:
        time.sleep(0.05)
    return told

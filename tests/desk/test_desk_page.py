"""The desk's page in a real browser: it says what check says, keeps what is filled in, and nothing is amiss."""

from __future__ import annotations

import shutil
import socket
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
import uvicorn

from planner.desk import DeskFolder, desk_app
from planner.fit import check
from planner.job import read_job
from planner.prepare import prepare

DAY = date(2026, 12, 1)
AXE = Path(__file__).parents[1] / "data" / "axe" / "axe.min.js"


@pytest.fixture(name="address", scope="module")
def _address(heron: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """Serve a desk with the Heron on it."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copytree(heron.parent, folder, dirs_exist_ok=True)
    listening = socket.socket()
    listening.bind(("127.0.0.1", 0))
    port = listening.getsockname()[1]
    app = desk_app(DeskFolder(folder, lambda: DAY), "a-token", port)
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", access_log=False))
    thread = Thread(target=server.run, kwargs={"sockets": [listening]}, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.05)
    yield f"http://127.0.0.1:{port}/?token=a-token", folder
    server.should_exit = True
    thread.join(10)


@pytest.mark.parametrize("width", [1280, 390])
def test_the_page_says_what_check_says(width: int, address: tuple[str, Path], chromium: Any) -> None:
    """Verdict and causes at five sizes; no console error, no request elsewhere, nothing wider than the screen."""
    url, folder = address
    context = chromium.new_context(viewport={"width": width, "height": 900}, bypass_csp=True)
    tab = context.new_page()
    wrong: list[str] = []
    asked: list[str] = []
    tab.on("console", lambda said: wrong.append(said.text) if said.type == "error" else None)
    tab.on("pageerror", lambda error: wrong.append(str(error)))
    tab.on("request", lambda request: asked.append(request.url))
    tab.goto(url)
    tab.wait_for_function("document.getElementById('verdict').className !== ''", timeout=60_000)
    bound = prepare(read_job(folder / "job.toml"), DAY).bound
    for percent in (70, 90, 106.5, 130, 170):
        tab.evaluate(
            "p => { const e = document.getElementById('percent'); e.value = p; e.dispatchEvent(new Event('input')); }",
            percent,
        )
        meant = check(bound, percent)
        tab.wait_for_function(
            "told => document.getElementById('verdict').textContent === told",
            arg=f"{meant.verdict.value} at {percent:g} %",
            timeout=20_000,
        )
        rows = tab.evaluate(
            "[...document.querySelectorAll('#findings tbody tr td:nth-child(3)')].map(e => e.textContent)"
        )
        assert rows == [f.why for f in meant.findings if f.verdict.value != "go"]
    assert tab.evaluate("document.documentElement.scrollWidth") <= width
    tab.add_script_tag(content=AXE.read_text(encoding="utf-8"))
    found = tab.evaluate("axe.run(document, {resultTypes: ['violations']})")["violations"]
    assert [(f["id"], f["help"]) for f in found if f["impact"] in ("serious", "critical")] == []
    assert wrong == []
    assert {one.split("/")[2] for one in asked if not one.startswith("data:")} == {url.split("/")[2]}
    context.close()


def test_a_field_that_is_filled_in_is_saved(address: tuple[str, Path], chromium: Any) -> None:
    """By keyboard alone: the count of a part, kept in the file with its comments."""
    url, folder = address
    context = chromium.new_context(viewport={"width": 1280, "height": 900})
    tab = context.new_page()
    tab.goto(url)
    field = tab.get_by_label("jaw count")
    field.focus()
    tab.keyboard.press("Control+A")
    tab.keyboard.type("4")
    tab.keyboard.press("Tab")
    for _ in range(100):
        if read_job(folder / "job.toml").part("jaw").count == 4:
            break
        time.sleep(0.1)

    assert read_job(folder / "job.toml").part("jaw").count == 4
    context.close()

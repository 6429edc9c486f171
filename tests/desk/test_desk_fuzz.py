"""Every route of the desk, asked with what nobody ought to send: an answer or one sentence, never a fault."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from planner.desk import DeskFolder, desk_app
from tests.desk.test_work_folder import JOB
from tests.shapes import cuboid, written

HERE, TOKEN = "http://127.0.0.1:8765", "a-token"
NUMBERS: list[Any] = [10**400, -(10**400), 10**25, -1, 0, 2**63, 1e308, -1e-300, 5e-324, 101.5]
WORDS: list[Any] = ["", "x", "9" * 3000, "\0", "\ud800", "\u202e", "../..", "C:\\x", '"""', "]]\n[job]", "<b>", "nan"]
VALUES: list[Any] = [None, True, False, *NUMBERS, *WORDS, float("nan"), float("inf"), [], {}, [[]], [{"a": []}]]
KEYS = (
    *(
        [
            "name",
            "percent",
            "side",
            "count",
            "duty",
            "parts",
            "rows",
            "table",
            "row",
            "fields",
            "remove",
            "job",
            "size",
            "text",
            "n",
            "hardware",
            "cord",
            "box",
        ]
    ),
    "\ud800",
)
PATHS = (
    *(
        [
            "/",
            "/state",
            "/guess",
            "/questions",
            "/answers",
            "/remedy",
            "/job",
            "/form",
            "/check",
            "/plan",
            "/progress",
            "/nowhere",
        ]
    ),
    *(
        [
            "/mesh/a.stl",
            "/mesh/..%2f..%2fa.stl",
            "/mesh/%ff.stl",
            "/mesh/%00.stl",
            "/picture/x",
            "/picture/%ed%a0%80",
            "/picture/",
        ]
    ),
    *(
        [
            "/static/desk.js",
            "/static/%2e%2e",
            "/plan/report.html",
            "/plan/..%2fjob.toml",
            "/plan/%00",
            "/plan/%ff",
            "/plan//etc/passwd",
        ]
    ),
)


@pytest.fixture(name="desk")
def _desk(tmp_path: Path) -> Iterator[tuple[TestClient, Path]]:
    folder = tmp_path / "desk"
    (folder / "parts").mkdir(parents=True)
    written(cuboid(20, 10, 8), folder / "parts" / "box.stl")
    (folder / "job.toml").write_text(JOB, encoding="utf-8")
    app = desk_app(DeskFolder(folder, lambda: date(2026, 12, 1)), TOKEN, 8765)
    with TestClient(app, base_url=HERE) as client:
        client.get("/", params={"token": TOKEN})
        yield client, folder


def _value(draw: random.Random, deep: int = 0) -> Any:
    """Return any value, often a table of keys that the desk knows."""
    if deep < 3 and draw.random() < 0.6:
        return {draw.choice(KEYS): _value(draw, deep + 1) for _ in range(draw.randrange(4))}
    return draw.choice(VALUES)


def test_no_route_ends_in_a_fault(desk: tuple[TestClient, Path]) -> None:
    """Five hundred requests with seeded bodies: below 500 each, and the job still reads or stands as it was."""
    client, folder = desk
    draw = random.Random(22)  # noqa: S311  a seeded test
    for n in range(500):
        path, method = draw.choice(PATHS), draw.choice(["GET", "PUT", "PUT", "POST", "POST", "DELETE"])
        if path == "/plan" and method == "POST":
            path = "/check"  # a plan that begins is a thread of its own
        body = draw.randbytes(draw.randrange(60)) if draw.random() < 0.1 else json.dumps(_value(draw)).encode()
        headers = {} if draw.random() < 0.7 else {"if-match": draw.choice(['"0"', "", "*", '"' + "f" * 2000])}
        answer = client.request(method, path, content=body, headers=headers, follow_redirects=False)

        assert answer.status_code < 500, (n, method, path, body[:200])
        assert answer.status_code != 400 or answer.json()["error"].endswith(".")
    assert not [path for path in folder.rglob("*") if path.name.startswith("tmp")]


@pytest.mark.parametrize("path", ["/check", "/plan", "/remedy"])
@pytest.mark.parametrize("percent", ["1" + "0" * 400, "1e400", "NaN", "-5", "true", '"x"', "1" + "0" * 5000, "[]"])
def test_a_size_that_no_device_has_is_refused(path: str, percent: str, desk: tuple[TestClient, Path]) -> None:
    """Four hundred digits, infinity, no number at all, less than nothing: one sentence."""
    method = "PUT" if path == "/remedy" else "POST"
    answer = desk[0].request(method, path, content=f'{{"n": 1, "text": "x", "percent": {percent}}}')

    assert answer.status_code == 400
    assert "percent" in answer.json()["error"] or "not a JSON object" in answer.json()["error"]


def test_a_page_that_comes_second_gets_both_texts(desk: tuple[TestClient, Path]) -> None:
    """``If-Match`` with an old version: 412 with both texts and the version that stands; with that one it is written."""
    client, folder = desk
    version = client.get("/state").json()["version"]
    seen = {"if-match": f'"{version}"'}
    assert client.put("/form", json={"parts": {"box": {"count": 2}}}, headers=seen).status_code == 200
    late = client.put("/form", json={"parts": {"box": {"duty": "load"}}}, headers=seen)

    assert late.status_code == 412
    told = late.json()
    assert told["job"] == (folder / "job.toml").read_text(encoding="utf-8") == JOB.replace("count = 1", "count = 2")
    assert told["yours"] == JOB.replace('"cover"', '"load"')
    both = {"if-match": f'"{told["version"]}"'}
    assert client.put("/form", json={"parts": {"box": {"duty": "load"}}}, headers=both).status_code == 200

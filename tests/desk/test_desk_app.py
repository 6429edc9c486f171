"""The desk: the same answers as the commands, everything inside one folder, and no door for anybody else."""

from __future__ import annotations

import hashlib
import random
import sys
import time
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from planner.desk import DeskFolder, desk_app
from planner.job import read_job
from planner.plan import prepare
from planner.rules import check, open_doubts
from tests.shapes import bored_plate, bracket, cuboid

PORT, TOKEN, DAY = 8765, "a-token-of-the-test", date(2026, 12, 1)
HERE = f"http://127.0.0.1:{PORT}"


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    folder = tmp_path / "desk"
    folder.mkdir()
    (tmp_path / "secret.toml").write_text("[job]\nname = 'secret'\n", encoding="utf-8")
    return folder


@pytest.fixture(name="desk")
def _desk(folder: Path) -> Iterator[TestClient]:
    with TestClient(desk_app(DeskFolder(folder, lambda: DAY), TOKEN, PORT), base_url=HERE) as client:
        client.get("/", params={"token": TOKEN})
        yield client


def _stl(tmp_path: Path, name: str, solid: Any) -> bytes:
    """Return a mesh file's bytes."""
    from planner.mesh import write_stl

    write_stl(tmp_path / name, [solid])
    return (tmp_path / name).read_bytes()


def _filled(desk: TestClient, tmp_path: Path) -> dict[str, Any]:
    """Put two meshes on the desk and have the job written."""
    plate, box = bored_plate(40, 30, 6, [(20, 15, 5.3, 48)]), cuboid(20, 10, 8)
    assert desk.put("/mesh/plate.stl", content=_stl(tmp_path, "plate.stl", plate)).json()["added"] == "plate.stl"
    assert desk.put("/mesh/box.stl", content=_stl(tmp_path, "box.stl", box)).status_code == 200
    told: dict[str, Any] = desk.post("/guess").json()
    return told


def test_meshes_become_a_job_that_says_what_the_command_says(desk: TestClient, folder: Path, tmp_path: Path) -> None:
    """Drop, guess, fill the form, judge: check in the page is check in the room, at several sizes."""
    told = _filled(desk, tmp_path)
    assert {part["name"] for part in told["form"]["parts"]} == {"plate", "box"}

    fields = {"size": {"percent": 90, "side": "left"}, "parts": {"plate": {"duty": "load", "count": 2}}}
    saved = desk.put("/form", json=fields).json()
    assert "# GUESS" in saved["job"]
    job = read_job(folder / "job.toml")
    assert (job.size.percent, job.part("plate").count, job.part("plate").duty) == (90.0, 2, "load")
    ready = prepare(job, DAY)
    for percent in (60.0, 90.0, 130.0):
        answer = desk.post("/check", json={"percent": percent}).json()
        meant = check(ready.bound, percent)
        assert answer["check"]["verdict"] == meant.verdict.value
        assert [f["why"] for f in answer["check"]["findings"]] == [f.why for f in meant.findings]
    assert desk.post("/check", json={}).json()["own_percent"] == 90.0


def test_remedies_are_proved_at_a_tried_size_once_the_hand_rests(
    desk: TestClient, folder: Path, tmp_path: Path
) -> None:
    """A wall of 2.5 mm at 50 % is 1.25 mm: a moving slider proves nothing, a resting one finds lines that fit."""
    desk.put("/mesh/plate.stl", content=_stl(tmp_path, "plate.stl", bracket(6.0, 2.5)))
    desk.post("/guess")
    for duty in ("shell", "load"):  # load is the guess: a person who says so states it
        desk.put("/form", json={"size": {"percent": 100}, "parts": {"plate": {"duty": duty}}})
    own = desk.post("/check", json={}).json()["check"]
    moving = desk.post("/check", json={"percent": 50.0}).json()["check"]
    resting = desk.post("/check", json={"percent": 50.0, "prove": True}).json()["check"]

    assert own["remedies"] == moving["remedies"] == []
    assert [remedy["text"] for remedy in resting["remedies"]] == ["print with lines of 0.41 mm instead of 0.45 mm"]
    assert "print with lines of 0.41 mm" in next(f["remedy"] for f in resting["findings"] if f["rule"] == "wall.thin")
    assert read_job(folder / "job.toml").size.percent == 100.0


def test_a_proved_remedy_is_written_with_the_size_it_was_proved_at(
    desk: TestClient, folder: Path, tmp_path: Path
) -> None:
    """Lines of 0.41 mm at 50 %: both stand in the file and the wall passes; a stale number is refused, nothing lost."""
    desk.put("/mesh/plate.stl", content=_stl(tmp_path, "plate.stl", bracket(6.0, 2.5)))
    desk.post("/guess")
    for duty in ("shell", "load"):  # load is the guess: a person who says so states it
        desk.put("/form", json={"size": {"percent": 100}, "parts": {"plate": {"duty": duty}}})
    (remedy,) = desk.post("/check", json={"percent": 50.0, "prove": True}).json()["check"]["remedies"]
    stale = desk.put("/remedy", json={"n": remedy["n"], "text": "print with lines of 0.30 mm", "percent": 50.0})
    assert (stale.status_code, read_job(folder / "job.toml").size.percent) == (400, 100.0)

    assert desk.put("/remedy", json={"n": remedy["n"], "text": remedy["text"], "percent": 50.0}).status_code == 200
    job = read_job(folder / "job.toml")
    assert (job.size.percent, job.settings.line_width_mm.value) == (50.0, 0.41)
    assert "remedy chosen 2026-12-01" in (folder / "job.toml").read_text(encoding="utf-8")
    findings = desk.post("/check", json={}).json()["check"]["findings"]
    assert {f["verdict"] for f in findings if f["rule"] == "wall.thin"} == {"go"}


def test_a_plan_is_made_in_the_background_and_its_report_opens(desk: TestClient, folder: Path, tmp_path: Path) -> None:
    """Progress grows to done; the report lies in the folder and is served in a box of its own."""
    _filled(desk, tmp_path)
    assert desk.post("/plan", json={"percent": 100}).json()["state"] in ("working", "done")
    shares, now = [0.0], {"state": "working"}
    for _ in range(600):
        now = desk.get("/progress").json()
        if now["state"] != "working":
            break
        shares.append(now["share"])
        time.sleep(0.1)

    assert now["state"] == "done", now
    assert shares == sorted(shares)
    report = desk.get("/plan/report.html")
    assert report.status_code == 200
    assert report.headers["content-security-policy"].startswith("sandbox")
    assert (folder / "plan" / "plan.json").is_file()
    assert desk.get("/plan/bench/papers.pdf").content.startswith(b"%PDF")


def test_a_job_that_cannot_be_is_refused_and_the_old_one_stands(desk: TestClient, folder: Path, tmp_path: Path) -> None:
    """One sentence each, with the key; nothing is lost."""
    before = _filled(desk, tmp_path)["job"]
    huge = [before.replace("count = 1", "count = 1" + "0" * zeros) for zeros in (20, 400, 5000)]
    for text in (
        *huge,
        before.replace("count = 1", "count = -1"),
        "no = [toml",
        "",
        before + '\n[[part]]\nname = "x"\n',
    ):
        answer = desk.put("/job", json={"text": text})
        assert answer.status_code == 400
        assert answer.json()["error"].endswith(".")
        assert "tried" not in answer.json()["error"]
    assert desk.put("/form", json={"size": {"percent": "much"}}).status_code == 400
    for odd in (
        '{"parts": {"plate": {"count": Infinity}}}',
        '{"parts": {"plate": {"count": NaN}}}',
        '{"size": {"percent": -Infinity}}',
        '{"parts": {"plate": {"count": 1' + "0" * 400 + "}}}",
        '{"job": {"name": "\\ud800"}}',
        '{"job": {"name": "\\u0000"}}',
    ):
        answer = desk.put("/form", content=odd)
        assert (odd, answer.status_code) == (odd, 400)
        assert answer.json()["error"].endswith(".")
    assert desk.post("/guess").status_code == 400
    assert desk.put("/mesh/bad.stl", content=b"this is no mesh").status_code == 400
    assert (folder / "job.toml").read_text(encoding="utf-8") == before
    assert sorted(path.name for path in folder.iterdir()) == ["job.toml", "parts"]


@pytest.mark.parametrize(
    "line",
    [
        'printer = "../secret.toml"',
        'printer = "/etc/passwd"',
        'settings = "..\\\\secret.toml"',
        'material = "link.toml"',
    ],
)
def test_a_job_reads_nothing_from_outside(line: str, desk: TestClient, folder: Path, tmp_path: Path) -> None:
    """Dots, absolute paths, backslashes and links are refused before anything is opened."""
    told = _filled(desk, tmp_path)["job"]
    (folder / "link.toml").symlink_to(tmp_path / "secret.toml")
    key = line.split(" =", maxsplit=1)[0]
    kept = [each for each in told.splitlines() if not each.startswith(f"{key} =")]
    answer = desk.put("/job", json={"text": "\n".join(kept).replace("[job]", f"[job]\n{line}", 1)})

    assert answer.status_code == 400
    assert "leads out" in answer.json()["error"]


def test_only_its_own_page_with_the_token_is_answered(folder: Path) -> None:
    """No token, a wrong one, another host or another origin: nothing is told."""
    app = desk_app(DeskFolder(folder, lambda: DAY), TOKEN, PORT)
    with TestClient(app, base_url=HERE) as other:
        assert other.get("/state").status_code == 401
        assert other.get("/", params={"token": "wrong"}).status_code == 401
        opened = other.get("/", params={"token": TOKEN}, follow_redirects=False)
        assert "HttpOnly" in opened.headers["set-cookie"]
        assert "SameSite=lax" in opened.headers["set-cookie"]
        assert other.get("/state").status_code == 200
        for headers in ({"origin": "http://evil.example"}, {"origin": "null"}, {"host": "evil.example"}):
            assert other.post("/guess", headers=headers).status_code == 403


def _tree(folder: Path) -> dict[str, str]:
    """Return the hash of every file in a folder and below."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_two_hundred_hostile_requests_change_and_tell_nothing(desk: TestClient, tmp_path: Path) -> None:
    """Traversal, wrong types, huge numbers, strange names, nested tables: refused, and every file as it was."""
    _filled(desk, tmp_path)
    before = _tree(tmp_path)
    draw = random.Random(20)  # noqa: S311  a seeded test
    names = [
        "../x.stl",
        "..%2f..%2fsecret.toml",
        "%2e%2e/x.stl",
        ".hidden.stl",
        "a\0.stl",
        "a/b.stl",
        "x.exe",
        "C:\\x.stl",
    ]
    names += ["x" * 300 + ".stl", "..", ".", "~root.stl", "-.stl", "%00.stl", "nul.stl/..", "job.toml"]
    values: list[Any] = [None, True, -1, 1e308, "x" * 5000, [], {}, [[[]]], {"a": {"b": []}}, "../../etc/passwd", "\0"]
    for _ in range(200):
        name, value = draw.choice(names), draw.choice(values)
        kind = draw.randrange(7)
        if kind == 0:
            answer = desk.put(f"/mesh/{name.replace(chr(0), '%00')}", content=draw.randbytes(draw.randrange(400)))
        elif kind == 1:
            answer = desk.delete(f"/mesh/{name.replace(chr(0), '%00')}")
        elif kind == 2:
            answer = desk.get(f"/plan/{name.replace(chr(0), '%00')}")
        elif kind == 3:
            answer = desk.get(f"/static/{name.replace(chr(0), '%00')}")
        elif kind == 4:
            answer = desk.put(
                "/form", json={draw.choice(["job", "size", "parts", "x"]): {"percent": value, "y": value}}
            )
        elif kind == 5:
            answer = desk.put("/job", json={"text": value})
        else:
            answer = desk.post("/check", json=value if isinstance(value, dict) and value else {"percent": value or "x"})
        assert answer.status_code in (200, 400, 401, 403, 404, 405), (kind, name, value)
        assert "secret" not in answer.text.replace("secret.toml", "")
        assert "root:" not in answer.text

    assert _tree(tmp_path) == before


def test_what_is_too_large_is_refused_while_it_comes(desk: TestClient, monkeypatch: pytest.MonkeyPatch) -> None:
    """Reading stops at the limit."""
    monkeypatch.setattr(
        sys.modules["planner.desk.desk_app"], "MESH_BYTES", 1000
    )  # the room exports its function under that name
    answer = desk.put("/mesh/large.stl", content=b"0" * 5000)

    assert answer.status_code == 400
    assert "larger" in answer.json()["error"]


def test_the_desk_asks_what_start_asks(desk: TestClient, folder: Path, tmp_path: Path) -> None:
    """The same questions with pictures; an answer goes into the file with its day and is asked no more."""
    _filled(desk, tmp_path)
    listed = desk.get("/questions").json()["questions"]
    ready = prepare(read_job(folder / "job.toml"), DAY)
    bores = next(one for one in listed if one["id"].startswith("bores"))

    assert {one["id"] for one in listed} == {doubt.id for doubt in open_doubts(ready.job, ready.surveys)}
    assert [one["settles_n"] for one in listed] == sorted((one["settles_n"] for one in listed), reverse=True)
    assert desk.get(f"/picture/{bores['id']}").content.startswith(b"\x89PNG")
    saved = desk.put("/answers", json={bores["id"]: "nothing"}).json()["job"]
    assert "# answered 2026-12-01" in saved
    assert bores["id"] not in {one["id"] for one in desk.get("/questions").json()["questions"]}


@pytest.mark.parametrize("answers", [{"bores-9": "nothing"}, {"duty-bodies": 3}, {"duty-bodies": "glue"}])
def test_an_answer_that_is_none_changes_nothing(answers: dict[str, Any], desk: TestClient, tmp_path: Path) -> None:
    """An unknown question or option is one sentence; the file stays."""
    _filled(desk, tmp_path)
    before = desk.get("/state").json()["job"]
    refused = desk.put("/answers", json=answers)

    assert refused.status_code == 400
    assert desk.get("/state").json()["job"] == before

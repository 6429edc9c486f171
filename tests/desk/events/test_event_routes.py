"""Events from the desk: what the commands tell is told here too, and of two desks the second one is told first."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from planner.desk import DeskFolder, desk_app
from planner.ledger import made, shown, told
from tests.ledger.telling import DAY, chapter, tell

PORT, TOKEN = 8765, "a-token-of-the-test"


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a chapter's folder with one recipient in its ledger."""
    (tmp_path / "chapter.toml").write_text('[chapter]\nledger = "ledger.db"\n', encoding="utf-8")
    engine = made(str(tmp_path / "ledger.db"))
    told(engine, [tell("printer", "bench-1", profile="bench-220", attended=[]), *chapter()], DAY)
    engine.dispose()
    return tmp_path


@pytest.fixture(name="desk")
def _desk(folder: Path) -> Iterator[TestClient]:
    with _opened(folder) as client:
        yield client


def _opened(folder: Path) -> TestClient:
    """Return a desk of its own on a folder."""
    app = desk_app(DeskFolder(folder, lambda: date(2026, 12, 1)), TOKEN, PORT)
    client = TestClient(app, base_url=f"http://127.0.0.1:{PORT}")
    client.get("/", params={"token": TOKEN})
    return client


def _state(desk: TestClient) -> Any:
    return desk.get("/ledger").json()


def test_each_event_is_told_from_the_desk(desk: TestClient) -> None:
    """Started, failed with its cause and piece, done, weighed, bought, noted, fitted, handed: the ledger follows each."""
    rows: list[tuple[str, dict[str, Any]]] = [
        ("started", {"subject": "R-07.1"}),
        ("failed", {"subject": "R-07.1", "cause": "loose", "lost": "jaw:1", "ran_min": "80"}),
        ("done", {"subject": "R-07.2", "grams": "21,5", "spool": "S-1"}),
        ("weighed", {"subject": "S-1", "left_g": 212}),
        ("bought", {"subject": "screw M3x12", "n": 10}),
        ("note", {"subject": "R-07", "text": "strap 20 mm shorter"}),
        ("fitted", {"subject": "R-07", "even_so": True, "role": "fitter"}),
        ("handed", {"subject": "R-07", "even_so": True, "role": "fitter"}),
    ]
    for kind, fields in rows:
        answer = desk.post(f"/ledger/{kind}", json=fields)
        assert answer.status_code == 200, answer.text
    state = _state(desk)

    assert {row["id"]: row["state"] for row in state["plates"]} == {"R-07.1": "failed", "R-07.2": "done"}
    assert state["spools"] == [{"id": "S-1", "colour": "green", "left_g": 212.0}]
    assert state["stock"] == [{"name": "screw M3x12", "n": 10.0}]
    assert state["jobs"] == [{"job": "R-07", "state": "handed"}]


def test_the_second_of_two_desks_is_told_and_keeps_its_words(desk: TestClient, folder: Path) -> None:
    """Both load the page; one says done, the other failed: refused with both, though of another plate it is taken."""
    other = _opened(folder)
    seen = {"If-Match": f'"{_state(desk)["seen"]}"'}
    assert _state(other)["seen"] == _state(desk)["seen"]
    first = desk.post("/ledger/weighed", json={"subject": "S-1", "left_g": 300}, headers=seen)
    mine = {"subject": "S-1", "left_g": 280, "key": "k" * 32}
    late = other.post("/ledger/weighed", json=mine, headers=seen)

    assert first.status_code == 200
    assert late.status_code == 412
    assert late.json()["yours"] == mine
    assert [row["body"]["left_g"] for row in late.json()["since"]] == [300.0]
    assert _state(other)["spools"][0]["left_g"] == 300.0
    assert other.post("/ledger/done", json={"subject": "R-07.1"}, headers=seen).status_code == 200

    now = {"If-Match": f'"{late.json()["seen"]}"'}
    for _ in range(2):  # an answer that was lost is asked for again: taken once
        assert other.post("/ledger/weighed", json=mine, headers=now).status_code == 200
    assert _state(other)["spools"][0]["left_g"] == 280.0


@pytest.mark.parametrize(
    ("kind", "fields"),
    [
        ("done", {"subject": "R-99.1"}),
        ("done", {}),
        ("failed", {"subject": "R-07.1"}),
        ("failed", {"subject": "R-07.1", "cause": "bad luck"}),
        ("weighed", {"subject": "S-1", "left_g": "inf"}),
        ("weighed", {"subject": "S-1", "left_g": -3}),
        ("note", {"subject": "R-07", "text": "call Mrs Anna Smith on 030 123456"}),
        ("forget", {"subject": "R-07"}),
        ("done", {"subject": "R-07.1", "colour": "green"}),
    ],
)
def test_what_cannot_be_is_one_sentence_and_nothing_is_told(
    desk: TestClient, kind: str, fields: dict[str, Any]
) -> None:
    """Unknown plates, empty fields, no cause, no amount, a name, what is no event of the desk: 400, the journal as it was."""
    before = _state(desk)
    answer = desk.post(f"/ledger/{kind}", json=fields)

    assert answer.status_code == 400
    assert len(answer.json()["error"].splitlines()) == 1
    assert _state(desk) == before


def test_a_folder_without_a_ledger_says_so_and_one_outside_is_not_opened(folder: Path, tmp_path_factory: Any) -> None:
    """No chapter.toml: no way to the page, one sentence; a ledger beside the folder: refused."""
    plain = tmp_path_factory.mktemp("plain")
    desk = _opened(plain)

    assert desk.get("/ledger/there").json() == {"ledger": False}
    assert "no ledger is named" in desk.get("/ledger").json()["error"]
    (plain / "chapter.toml").write_text(f'[chapter]\nledger = "{folder / "ledger.db"}"\n', encoding="utf-8")
    assert "outside" in desk.get("/ledger").json()["error"]
    assert _opened(folder).get("/ledger/there").json() == {"ledger": True}


def test_the_page_and_its_words_are_served_to_who_has_the_token(desk: TestClient, folder: Path) -> None:
    """Page and script come with the desk's policy; without the token nothing does."""
    assert "Tell the ledger" in desk.get("/events").text
    assert desk.get("/static/events.js").status_code == desk.get("/static/to-events.js").status_code == 200
    assert desk.get("/events").headers["Content-Security-Policy"].startswith("default-src 'none'")
    stranger = TestClient(desk_app(DeskFolder(folder, date.today), TOKEN, PORT), base_url=f"http://127.0.0.1:{PORT}")
    assert stranger.get("/ledger").status_code == 401
    assert stranger.post("/ledger/done", json={"subject": "R-07.1"}).status_code == 401


def test_many_who_saw_the_same_are_told_but_for_one(folder: Path) -> None:
    """Six desks with the same last line weigh one spool at once: one is taken, five are told."""
    from concurrent.futures import ThreadPoolExecutor

    from planner.ledger import ToldSinceError, last_line, opened

    engine = opened(str(folder / "ledger.db"))
    seen = last_line(engine)

    def weighs(grams: float) -> bool:
        try:
            told(engine, [tell("weighed", "S-1", left_g=grams)], DAY, seen)
        except ToldSinceError:
            return False
        return True

    with ThreadPoolExecutor(6) as pool:
        took = list(pool.map(weighs, (10.0, 20.0, 30.0, 40.0, 50.0, 60.0)))

    assert sum(took) == 1
    assert shown(engine, "spools", date(2026, 12, 1))[0]["left_g"] == 10.0 * (1 + took.index(True))

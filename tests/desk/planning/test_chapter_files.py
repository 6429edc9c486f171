"""Files of a chapter changed at the desk: of two desks the second is told, and keeps its text."""

from __future__ import annotations

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tests.cli.conftest import JOB
from tests.desk.planning.planning_desks import desk_on


def test_the_second_of_two_desks_is_told_and_keeps_its_text(desk: TestClient, folder: Path) -> None:
    """Both load a job; one moves its deadline, the other its note: refused with both texts, and taken over the new one."""
    other, name = desk_on(folder), "/planning/text/r07/job.toml"
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

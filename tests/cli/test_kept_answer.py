"""Kept answers: the same question about the same files is answered from one record, and any change asks anew."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import typer

from planner.cache import kept
from planner.cli.kept_answer import answer
from planner.job import read_job
from tests.shapes import cuboid, written

JOB = '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'


@pytest.fixture
def job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a job file with a mesh, and a cache of its own."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path / "cache"))
    written(cuboid(20, 20, 20), tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    return tmp_path / "job.toml"


@pytest.fixture
def ask(job: Path) -> Callable[..., tuple[int, int]]:
    """Return what asks about a job: the exit code, and how often it was worked out so far."""
    worked: list[int] = []

    def work() -> int:
        worked.append(1)
        print("no-go", len(worked))
        return 1

    def asking(**asked: object) -> tuple[int, int]:
        with pytest.raises(typer.Exit) as left:
            answer(read_job(job), {"command": "check", **asked}, work)
        return left.value.exit_code, len(worked)

    return asking


def test_a_second_question_is_answered_without_work(
    ask: Callable[..., tuple[int, int]], capsys: pytest.CaptureFixture[str]
) -> None:
    """The same words and the same exit code, and nothing is worked out again."""
    assert ask() == (1, 1)
    first = capsys.readouterr().out
    assert ask() == (1, 1)
    assert capsys.readouterr().out == first == "no-go 1\n"


def test_whatever_changes_is_asked_anew(ask: Callable[..., tuple[int, int]], tmp_path: Path) -> None:
    """Another option, another byte in a mesh, another word in the job."""
    ask()
    assert ask(part="a") == (1, 2)
    written(cuboid(20, 20, 21), tmp_path / "a.stl")
    assert ask() == (1, 3)
    (tmp_path / "job.toml").write_text(JOB.replace('"cover"', '"load"'), encoding="utf-8")
    assert ask() == (1, 4)
    assert ask() == (1, 4)


def test_what_was_solved_meanwhile_is_told(ask: Callable[..., tuple[int, int]]) -> None:
    """Elements that ``strength`` solved, or a size that ``window`` proved, change what is said of the same job."""
    ask()
    for worked, room in enumerate(("elements", "rebore"), start=2):
        kept(room, "a-key", int, lambda: 1)
        assert ask() == (1, worked)
    assert ask() == (1, 3)


def test_json_in_a_file_is_kept_and_written_again_whichever_file_is_named(job: Path, tmp_path: Path) -> None:
    """The same bytes in another file, and nothing is worked out again; without a file, or on stdout, it is asked."""
    worked: list[str] = []

    def told(json: str) -> None:
        def work() -> int:
            worked.append(json)
            if json not in ("", "-"):
                Path(json).write_text('{"größe": 1}\n', encoding="utf-8")
            return 0

        with pytest.raises(typer.Exit):
            answer(read_job(job), {"command": "move"}, work, json)

    first, second = tmp_path / "first.json", tmp_path / "second.json"
    for json in (str(first), str(second), "", "-", str(first)):
        told(json)
    assert worked == [str(first), "", "-"]
    assert second.read_bytes() == first.read_bytes()
    told(os.devnull)
    told(os.devnull)
    assert worked[3:] == [os.devnull] * 2  # nothing can be read back from it


def test_a_question_that_fails_is_not_kept(job: Path) -> None:
    """An error is raised each time, and stdout is as it was."""
    out = sys.stdout
    for _ in range(2):
        with pytest.raises(ZeroDivisionError):
            answer(read_job(job), {"command": "fails"}, lambda: 1 // 0)
    assert sys.stdout is out

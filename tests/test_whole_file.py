"""A file written whole or not at all."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from planner.errors import JobError
from planner.whole_file import LEFT_S, whole, write_text
from tests.shapes import ROOT


def test_a_block_that_ends_badly_leaves_what_was_there_and_nothing_beside_it(tmp_path: Path) -> None:
    """The old text stands; the one that ends well takes its place, with the mode that was asked for."""
    path = tmp_path / "a.txt"
    path.write_text("old", encoding="utf-8")
    with pytest.raises(FileNotFoundError), whole(path) as aside:
        aside.write_bytes((tmp_path / "missing").read_bytes())

    assert path.read_text(encoding="utf-8") == "old"
    assert list(tmp_path.iterdir()) == [path]
    with whole(path, 0o600) as aside:
        aside.write_text("new", encoding="utf-8")

    assert path.read_text(encoding="utf-8") == "new"
    assert path.stat().st_mode & 0o777 == 0o600
    assert list(tmp_path.iterdir()) == [path]


def test_an_error_names_the_file_that_was_to_be_written(tmp_path: Path) -> None:
    """What is read back is refused by the name that a person knows."""
    path = tmp_path / "job.toml"
    with pytest.raises(JobError, match=r"^job\.toml: it holds no"), whole(path) as aside:
        raise JobError(where=aside.name, wrong="it holds no part", todo="add one")


KILLED = """
import os, signal, sys
from pathlib import Path
from planner.whole_file import whole
with whole(Path(sys.argv[1])) as aside:
    aside.write_text("half")
    os.kill(os.getpid(), signal.SIGKILL)
"""


def test_what_a_killed_program_left_goes_with_the_next_write(tmp_path: Path) -> None:
    """The old text stands, what lies beside it is hidden, and nobody has to clear up; a letter of a pattern is a letter."""
    path = tmp_path / "[job]*.toml"
    write_text(path, "old")
    run = subprocess.run(
        [sys.executable, "-c", KILLED, str(path)], check=False, env={**os.environ, "PYTHONPATH": str(ROOT)}
    )
    left = sorted(tmp_path.iterdir())

    assert run.returncode == -signal.SIGKILL
    assert [len(left), left[0].name[0], path.read_text(encoding="utf-8")] == [2, ".", "old"]
    write_text(tmp_path / "other.txt", "new")
    assert sorted(one.name for one in tmp_path.iterdir()) == [path.name, "other.txt"]


def test_what_runs_here_or_elsewhere_is_left_alone_for_an_hour(tmp_path: Path) -> None:
    """A file of this very process, and two of another computer: all may still be written to."""
    path = tmp_path / "a.txt"
    with whole(path) as mine:
        others = [tmp_path / name for name in (".a.txt.fitwright-00000000-1-x.txt", ".b.txt.fitwright-00000000-1-x")]
        for other in others:
            other.write_text("", encoding="utf-8")
        write_text(path, "first")
        assert mine.exists()
        mine.write_text("second", encoding="utf-8")

    assert path.read_text(encoding="utf-8") == "second"
    assert [other.exists() for other in others] == [True, True]
    os.utime(others[0], (others[0].stat().st_atime, others[0].stat().st_mtime - 2 * LEFT_S))
    write_text(path, "third")
    assert [other.exists() for other in others] == [False, True]

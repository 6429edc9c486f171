"""A folder written whole or not at all."""

from __future__ import annotations

import hashlib
import json
import os
import signal
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from planner import whole_folder as module
from planner.errors import CommandError
from planner.whole_folder import MANIFEST, alone, files_in, untouched_files, whole_folder
from tests.shapes import ROOT


def _fill(folder: Path, **texts: str) -> None:
    """Write files; the text of each is its word."""
    folder.mkdir(exist_ok=True)
    for name, text in texts.items():
        (folder / f"{name}.txt").write_text(text, encoding="utf-8")


def _fill_and_fail(folder: Path) -> None:
    """Write a file, then fail as on a full disk."""
    _fill(folder, new="new")
    folder.write_text("no text goes into a folder", encoding="utf-8")


def _ours(*names: str) -> frozenset[str]:
    """Return file names as a set."""
    return frozenset(f"{name}.txt" for name in names)


def _read(folder: Path) -> dict[str, str]:
    """Return all texts of a folder by name."""
    return {name: (folder / name).read_text(encoding="utf-8") for name in files_in(folder)}


@pytest.mark.parametrize("way", ["exchanged", "renamed", "stood in"])
def test_what_was_ours_goes_and_what_is_peoples_stays(
    way: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Old files of ours vanish, people's stay, also where the system cannot exchange folders, or one stands in it."""
    target = tmp_path / "plan"
    _fill(target, stale="old", both="old", mine="mine")
    if way == "renamed":
        monkeypatch.setattr(module, "_exchanged", lambda *_: False)
    if way == "stood in":
        monkeypatch.chdir(target)
    with whole_folder(target, lambda _: _ours("stale", "both")) as twin:
        assert _read(twin) == {"mine.txt": "mine"}
        _fill(twin, both="new", more="new")
        assert _read(target)["both.txt"] == "old"

    assert _read(target) == {"both.txt": "new", "more.txt": "new", "mine.txt": "mine"}
    assert list(tmp_path.iterdir()) == [target]


def test_a_folder_that_is_not_ours_loses_nothing(tmp_path: Path) -> None:
    """Where no file is known to be ours, all stay, and the folder itself stays in its place."""
    target = tmp_path / "mine"
    _fill(target, mine="mine")
    (target / "empty").mkdir()
    before = target.stat().st_ino
    with whole_folder(target, lambda _: frozenset()) as twin:
        _fill(twin, new="new")

    assert _read(target) == {"mine.txt": "mine", "new.txt": "new"}
    assert (target / "empty").is_dir()
    assert target.stat().st_ino == before


def test_a_block_that_ends_badly_changes_nothing(tmp_path: Path) -> None:
    """The old folder stands, nothing lies beside it, and a new one does not come to be."""
    target = tmp_path / "plan"
    _fill(target, old="old")
    for folder in (target, tmp_path / "other"):
        with pytest.raises(IsADirectoryError), whole_folder(folder, lambda _: _ours("old")) as twin:
            _fill_and_fail(twin)

    assert _read(target) == {"old.txt": "old"}
    assert list(tmp_path.iterdir()) == [target]


def test_two_programs_do_not_write_one_folder_at_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The second waits, and says so in the end."""
    monkeypatch.setattr(module, "WAIT_S", 0.1)
    with (
        whole_folder(tmp_path / "plan", lambda _: frozenset()),
        pytest.raises(CommandError, match="another program is writing"),
        whole_folder(tmp_path / "plan", lambda _: frozenset()),
    ):
        pass


def test_a_lock_leaves_no_file_behind_and_lets_one_in_at_a_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three programs add up by turns, none is lost although each takes the lock's file away; in the end none lies there."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    count = tmp_path / "count"
    count.write_text("0", encoding="utf-8")

    def add() -> None:
        for _ in range(8):
            with alone(tmp_path / "plan"):
                seen = int(count.read_text(encoding="utf-8"))
                time.sleep(0.001)
                count.write_text(str(seen + 1), encoding="utf-8")

    with ThreadPoolExecutor(3) as three:
        for each in [three.submit(add) for _ in range(3)]:
            each.result()

    assert count.read_text(encoding="utf-8") == "24"
    assert list(tmp_path.iterdir()) == [count]


KILLED = """
import sys
from pathlib import Path
from planner.whole_folder import whole_folder, files_in
target = Path(sys.argv[1])
print("begun", flush=True)
for turn in range(10**6):
    with whole_folder(target, lambda folder: files_in(folder) - {"mine.txt"}) as twin:
        for name in range(20):
            (twin / f"{turn % 7}-{name}.txt").write_text(str(turn))
"""


def test_a_killed_program_leaves_the_old_folder_or_the_new(tmp_path: Path) -> None:
    """Twelve kills at odd moments: all files are of one turn, people's are there, and the next run clears the rest."""
    target = tmp_path / "plan"
    _fill(target, mine="mine")
    with whole_folder(target, lambda _: frozenset()) as twin:
        _fill(twin, first="0")
    for step in range(12):
        with subprocess.Popen(
            [sys.executable, "-c", KILLED, str(target)],
            stdout=subprocess.PIPE,
            cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        ) as run:
            assert run.stdout is not None
            run.stdout.readline()
            time.sleep(0.002 * step)
            run.send_signal(signal.SIGKILL)
        left = _read(target)

        assert left.pop("mine.txt") == "mine"
        assert len(set(left.values())) == 1
        assert len({name.split("-")[0] for name in left}) == 1
    with whole_folder(target, lambda _: frozenset()):
        pass

    assert list(tmp_path.iterdir()) == [target]


@pytest.mark.parametrize("name", ["../outside.txt", "sub/../../outside.txt"])
def test_a_manifest_that_names_what_lies_elsewhere_is_none(name: str, tmp_path: Path) -> None:
    """A folder from a stranger cannot have files beside it taken for ours, and cleared away (CWE-22)."""
    (tmp_path / "outside.txt").write_text("mine", encoding="utf-8")
    folder = tmp_path / "plan"
    (folder / "plates").mkdir(parents=True)
    row = {"sha256": hashlib.sha256(b"mine").hexdigest()}
    (folder / MANIFEST).write_text(json.dumps({"files": {name: row}}), encoding="utf-8")

    assert untouched_files(folder) == frozenset()
    with whole_folder(folder, untouched_files) as twin:
        (twin / "new.txt").write_text("new", encoding="utf-8")
    assert (tmp_path / "outside.txt").read_text(encoding="utf-8") == "mine"

"""Work on a cluster keeps what one process would keep, to the last byte, and what does not come back is made here."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from planner.cache import kept
from planner.cores import on_workers
from planner.cores.on_workers import files_of, spread
from planner.errors import CommandError


def _who(n: int) -> int:
    """Keep which process was asked for a number."""
    return kept("who", str(n).zfill(64), int, os.getpid)


def _square(n: int) -> int:
    """Keep a square; 3 has none."""
    if n == 3:
        raise ValueError("no square")
    return kept("square", str(n).zfill(64), int, lambda: n * n)


@pytest.fixture(autouse=True)
def an_empty_cache(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Let this process have an empty cache."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    return tmp_path


def _files(folder: Path) -> dict[str, bytes]:
    """Return what a cache holds."""
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_a_worker_sends_back_the_bytes_that_this_process_would_keep(an_empty_cache: Path) -> None:
    """An item done with an empty cache elsewhere gives the files that doing it here leaves; this cache is not touched."""
    sent = files_of(_square, 7)
    assert _files(an_empty_cache) == {}
    _square(7)
    assert _files(an_empty_cache) == sent
    assert os.environ["FITWRIGHT_CACHE"] == str(an_empty_cache)


def test_without_a_cluster_nothing_is_sent() -> None:
    """Outside ``on_workers``, and with no workers named, work stays here."""
    assert not spread(_square, [1])
    with on_workers(""):
        assert not spread(_square, [1])


@pytest.mark.parametrize("where", ["0", "many", "-2", "999"])
def test_what_is_neither_a_number_nor_an_address_is_refused(where: str) -> None:
    """None, a word, less than none, more than 256: one sentence."""
    with pytest.raises(CommandError, match="tcp://"), on_workers(where):
        pass


SCRIPT = """
import os
from planner.cores import ahead, on_workers
from tests.cores.test_on_workers import _square, _who
if __name__ == "__main__":
    with on_workers("1"):
        ahead(_who, [1, 2])
        ahead(_square, [2, 3])
    print(os.getpid() in {_who(1), _who(2)})
"""


def test_processes_of_a_cluster_fill_the_cache_and_a_failure_is_left_to_who_asks(
    an_empty_cache: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Another process does what this one then finds; what fails there is missing, and fails where it is asked for."""
    pytest.importorskip("distributed", reason="pip install 'fitwright[workers]'")
    script = tmp_path_factory.mktemp("script") / "cluster.py"  # a process of its own: a cluster leaves threads behind
    script.write_text(SCRIPT, encoding="utf-8")
    here = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    ran = subprocess.run([sys.executable, script], env=here, capture_output=True, text=True, timeout=120, check=False)

    assert ran.stdout.strip() == "False", ran.stderr
    assert len(_files(an_empty_cache)) == 3
    before = _files(an_empty_cache)
    assert _square(2) == 4
    assert _files(an_empty_cache) == before
    with pytest.raises(ValueError, match="no square"):
        _square(3)

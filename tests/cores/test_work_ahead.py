"""Work on several cores: what it keeps is the same, whoever did it, and nothing is lost where somebody fails."""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

import pytest

from planner.cache import kept
from planner.cores import ahead, work_ahead


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Let this process have two cores, an empty cache and no threads, as a command has."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    monkeypatch.setattr(work_ahead, "cores_n", lambda: 2)
    monkeypatch.setattr(work_ahead, "FIRST", os.getpid())
    monkeypatch.setattr("threading.active_count", lambda: 1)


def _who(n: int) -> int:
    """Keep which process was asked for a number."""
    return kept("who", str(n), int, os.getpid)


def test_all_is_kept_and_two_processes_did_it() -> None:
    """Every item is done once, by one of two processes, and is found in the cache afterwards."""
    here, pipe, waited = os.getpid(), os.pipe(), list[bytes]()

    def work(n: int) -> None:
        if os.getpid() == here and not waited:
            waited.append(os.read(pipe[0], 1))  # until the other process has done one
        _who(n)
        if os.getpid() != here:
            os.write(pipe[1], b".")

    ahead(work, range(20))

    assert here in {_who(n) for n in range(20)}
    assert len({_who(n) for n in range(20)}) == 2


def test_an_other_process_that_dies_costs_time_only() -> None:
    """Where the other process is killed or fails at an item, it comes to an end, and who asks makes what is missing."""
    here = os.getpid()

    def work(n: int) -> None:
        if os.getpid() != here:
            os.kill(os.getpid(), signal.SIGKILL)
        _who(n)

    ahead(work, range(4))

    assert {_who(n) for n in range(4)} == {here}


@pytest.mark.parametrize("told", [True, False])
def test_an_other_process_that_stands_still_is_stopped(monkeypatch: pytest.MonkeyPatch, told: bool) -> None:
    """Nobody waits for it longer than is told, and what it held is made where it is asked."""
    here = os.getpid()
    monkeypatch.setattr(work_ahead, "STILL_S" if told else "PATIENCE_S", 0.05)
    if not told:
        monkeypatch.setattr(work_ahead, "_used", lambda _: None)

    def work(n: int) -> None:
        if os.getpid() != here:
            signal.pause()
        _who(n)

    ahead(work, range(4))

    assert {_who(n) for n in range(4)} == {here}
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


def test_an_other_process_that_works_is_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """However little patience there is: while it uses processor time, it goes on to its end."""
    here, pipe = os.getpid(), os.pipe()
    monkeypatch.setattr(work_ahead, "PATIENCE_S", 0.0)
    monkeypatch.setattr(work_ahead, "_used", lambda _: time.monotonic())

    def work(n: int) -> None:
        if os.getpid() == here:
            os.read(pipe[0], 1)  # until the other process has one, too
        else:
            os.write(pipe[1], b".")
            time.sleep(0.05)
        _who(n)

    ahead(work, range(2))

    assert len({_who(n) for n in range(2)}) == 2


def test_a_fault_comes_out_and_leaves_nobody_behind() -> None:
    """A fault in this process comes out as it is, and the other process has ended."""

    def work(n: int) -> None:
        raise ValueError(n)

    with pytest.raises(ValueError, match=r"[01]"):
        ahead(work, range(2))

    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)


@pytest.mark.parametrize("why", ["one core", "threads", "a process of its own", "nothing kept"])
def test_where_it_may_not_fork_it_does_nothing(monkeypatch: pytest.MonkeyPatch, why: str) -> None:
    """On one core, with threads, in a forked process and without a cache nothing is done ahead."""
    monkeypatch.setattr(work_ahead, "cores_n", lambda: 1 if why == "one core" else 2)
    monkeypatch.setattr("threading.active_count", lambda: 2 if why == "threads" else 1)
    monkeypatch.setattr(work_ahead, "FIRST", 0 if why == "a process of its own" else os.getpid())
    if why == "nothing kept":
        monkeypatch.setenv("FITWRIGHT_CACHE", "off")
    done = list[int]()

    ahead(done.append, range(3))

    assert done == []

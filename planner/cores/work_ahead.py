"""Work whose results the cache keeps, done on all cores at once: who asks for it next finds it there.

Nothing hangs on it. What comes out is what the cache holds and what one core would have made; where nothing is kept,
where the process has threads, and on a system that cannot fork, all is left to who asks.
"""

from __future__ import annotations

import os
import signal
import threading
import time
import warnings
from collections.abc import Callable, Sequence
from typing import TypeVar

from planner.cache import folder
from planner.cores.on_workers import spread

T = TypeVar("T")
FIRST = os.getpid()
"""The process that loaded the program: what it forks does not fork again."""
CORES_MOST = 4
"""So many cores are used at most: each has the memory of a whole device."""
PATIENCE_S = 120.0
"""A forked process gets so long once there is nothing left to take, where nothing tells whether it works."""
STILL_S = 5.0
"""One that used no processor time for so long, all cores idle or not, stands still: libraries with threads may do so
in one. A busy machine gives every process its turn within a fraction of a second (common practice, no source)."""
POLL_S = 0.002
WORD_BYTES = 2
PROCESS_CLOCK = 2
ITEMS_MOST = 1 << 14
"""So many numbers of two bytes go into a pipe before anybody reads it (on Linux 65,536 bytes)."""


def cores_n() -> int:
    """Return how many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else 1


def ahead(work: Callable[[T], object], items: Sequence[T]) -> None:
    """Do some work on every item, on several cores: whichever is free takes the next one.

    Parameters
    ----------
    work
        Keeps what it makes in the cache; what it returns is dropped.
    items
        The longest work first is done soonest.
    """
    if spread(work, items):
        return
    more_n = min(len(items), cores_n(), CORES_MOST) - 1
    alone = os.getpid() == FIRST and threading.active_count() == 1 and hasattr(os, "fork")
    if more_n < 1 or not alone or folder() is None or len(items) > ITEMS_MOST:
        return
    numbers, put = os.pipe()
    os.write(put, b"".join(n.to_bytes(WORD_BYTES) for n in range(len(items))))
    os.close(put)
    others, done = list[int](), False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)  # numpy's idle threads are no danger: they stay behind
            for _ in range(more_n):
                others.append(_forked(work, items, numbers))
        _worked_off(work, items, numbers)
        done = True
    finally:
        os.close(numbers)
        for one in others:
            _ended(one, patience=done)


def _forked(work: Callable[[T], object], items: Sequence[T], numbers: int) -> int:
    """Return the number of a new process that works items off and ends; what fails there fails again where asked."""
    process = os.fork()
    if process == 0:
        try:
            _worked_off(work, items, numbers)
        finally:
            os._exit(0)
    return process


def _ended(process: int, *, patience: bool) -> None:
    """Wait for a process to end; one that stands still is stopped: what it has not kept is made where it is asked."""
    began_s = changed_s = time.monotonic()
    used = _used(process)
    while os.waitpid(process, os.WNOHANG) == (0, 0):
        now_s, using = time.monotonic(), _used(process)
        if using != used:
            used, changed_s = using, now_s
        still = now_s - changed_s >= STILL_S if used is not None else now_s - began_s >= PATIENCE_S
        if still or not patience:
            os.kill(process, signal.SIGKILL)
            os.waitpid(process, 0)
            return
        time.sleep(POLL_S)


def _used(process: int) -> float | None:
    """Return how much processor time a process has used, in seconds; None where the system does not tell.

    Its clock has this number on Linux (clock_getcpuclockid of POSIX.1-2001; the number by glibc, from memory).
    """
    try:
        return time.clock_gettime(~process << 3 | PROCESS_CLOCK)
    except (OSError, AttributeError, OverflowError):
        return None


def _worked_off(work: Callable[[T], object], items: Sequence[T], numbers: int) -> None:
    """Take items until there are none left."""
    while word := os.read(numbers, WORD_BYTES):
        work(items[int.from_bytes(word)])

"""What ``plan`` wrote and said is kept: asked again about the same, it writes the same and loads no room.

Beside what every kept answer hangs on, a plan's folder hangs on what people laid into it: a record that somebody has
filled in stays, and the report links it. Where the folder already holds just these files, nothing is written.
"""

from __future__ import annotations

import hashlib
import sys
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from pathlib import Path

from planner.cache import found, keep, key_of
from planner.cli.kept_answer import facts_of, heard
from planner.job import Job
from planner.whole_file import whole
from planner.whole_folder import MANIFEST, files_in, held, lies_inside, told_in, untouched_files, whole_folder

PLAN_VERSION = 1
"""Raised whenever the record of what a plan wrote changes."""
ROOM = "whole-plan"
PEOPLES = ("bench/", "coupon/")
"""Where a plan looks at what people have left in its folder: records and readings that were filled in."""
REPORT, JSON = "report.html", "plan.json"
REPORT_LINE, PLACE = "\nreport: {}\n", "\0"
"""The line that names the folder, and what stands for the report's path in a kept text."""

Into = Callable[[Path, Callable[[Path], frozenset[str]]], AbstractContextManager[Path]]
"""How a folder is written: as ``whole_folder`` does."""
State = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WholePlan:
    """The files of a plan's folder by their paths in it, what was printed, and the exit code."""

    files: dict[str, bytes]
    text: str
    code: int


class _ChangedError(Exception):
    """Somebody laid something into the folder meanwhile."""


def kept_plan(job: Job, folder: Path, json_path: str, asked: Mapping[str, object], plan: Callable[[Into], int]) -> int:
    """Plan a job into a folder, or write what was planned before, and return the exit code.

    Parameters
    ----------
    job
        As read, with the options that change it.
    folder, json_path
        Where the plan is written; where its JSON goes besides: to no file where it is empty or ``-``.
    asked
        All else that the command was called with.
    plan
        Plans, writes the folder by what it is given, and the JSON, prints to stdout and returns the exit code.
    """
    line = REPORT_LINE.format(folder / REPORT)
    state = _state(folder, files_in(folder) - untouched_files(folder))
    key = key_of(PLAN_VERSION, sorted(asked.items()), state, *facts_of(job))
    there: WholePlan
    for there in found(ROOM, key, WholePlan):
        if not all(lies_inside(name) for name in there.files) or not {MANIFEST, JSON} <= there.files.keys():
            break  # no plan wrote such an entry: nothing of it goes to disk
        try:
            _write(there, folder, state)
        except _ChangedError:
            break
        if json_path not in ("", "-"):
            with whole(Path(json_path), 0o600) as aside:
                aside.write_bytes(there.files[JSON])
        sys.stdout.write(there.text.replace(REPORT_LINE.format(PLACE), line))
        return there.code
    seen: list[tuple[State, dict[str, bytes]]] = []
    with heard() as text:
        code = plan(lambda one, ours: _seen(one, ours, seen))
    said = "".join(text)
    if len(seen) == 1 and seen[0][0] == state and said.count(line) <= 1 and PLACE not in said:
        kept = WholePlan(files=seen[0][1], text=said.replace(line, REPORT_LINE.format(PLACE)), code=code)
        keep(ROOM, key, WholePlan, kept)
    return code


def _state(folder: Path, people: Collection[str]) -> State:
    """Return those files of people in a folder that a plan looks at, by path and checksum."""
    looked_at = sorted(name for name in people if name.startswith(PEOPLES))
    return tuple((name, hashlib.sha256((folder / name).read_bytes()).hexdigest()) for name in looked_at)


@contextmanager
def _seen(
    folder: Path, ours: Callable[[Path], frozenset[str]], seen: list[tuple[State, dict[str, bytes]]]
) -> Iterator[Path]:
    """Write a folder whole, and tell what of people's lay there and what was written, nobody else writing meanwhile."""
    with whole_folder(folder, ours) as twin:
        state = _state(twin, files_in(twin))
        yield twin
        told = told_in(twin) or {"files": {}}
        seen.append((state, {name: (twin / name).read_bytes() for name in (*told["files"], MANIFEST)}))


def _write(there: WholePlan, folder: Path, state: State) -> None:
    """Write kept files in place of an earlier plan; where the folder holds them and nothing else of ours, leave it."""
    folder = folder.resolve()
    if folder.is_dir():
        with held(folder):
            if _holds(folder, there.files):
                return
    with whole_folder(folder, untouched_files) as twin:
        if _state(twin, files_in(twin)) != state:
            raise _ChangedError
        for name, raw in there.files.items():
            (twin / name).parent.mkdir(parents=True, exist_ok=True)
            with whole(twin / name, clear=False) as aside:
                aside.write_bytes(raw)


def _holds(folder: Path, files: Mapping[str, bytes]) -> bool:
    """Return whether a folder holds just these files of ours, none of them changed."""
    try:
        same = (folder / MANIFEST).read_bytes() == files[MANIFEST]
    except OSError:
        return False
    return same and untouched_files(folder) == files.keys()

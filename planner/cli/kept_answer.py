"""What a command said is kept: asked again about the same files on the same day, it reads one record and loads no room.

The key is everything that an answer hangs on: the job as read, its mesh files byte by byte, the options, the day, what
the terminal takes, and the program itself, whatever of it has changed.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager, redirect_stdout
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TextIO, cast

import typer

from planner.cache import kept, key_of, keys_in
from planner.job import Job, program_stamp
from planner.whole_file import whole

ANSWER_VERSION = 3
"""Raised whenever the record of an answer changes."""
ASKED_FOR = ("elements", "rebore")
"""Rooms of the cache that other commands fill, and whose answers are told from then on."""
OWN_FILE = 0o600
"""A job may tell of a person: its answers are read by who asked for them alone."""
LOOKS = ("NO_COLOR", "FORCE_COLOR", "TERM", "COLORTERM", "COLUMNS", "LINES", "TTY_COMPATIBLE", "TTY_INTERACTIVE")
"""What tells a terminal's colours and width, beside the terminal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a command wrote to stdout and into the file that was asked for, if one was, and its exit code."""

    text: str
    file: str
    code: int


class _Heard:
    """Stdout that also keeps what is written to it."""

    def __init__(self, out: TextIO) -> None:
        self.out, self.written = out, list[str]()

    def write(self, text: str) -> int:
        """Write, and keep it."""
        self.written.append(text)
        return self.out.write(text)

    def __getattr__(self, name: str) -> object:
        return getattr(self.out, name)


def answer(job: Job, asked: Mapping[str, object], ask: Callable[[], int], json: str = "") -> None:
    """Say what a command says of a job, from its record or by asking, and leave with its exit code.

    Parameters
    ----------
    job
        As read, with the options that change it.
    asked
        The command's name, and all else that it was called with.
    ask
        Writes the answer to stdout, and to ``json`` where that names a file, and nowhere else; returns the exit code.
    json
        Where the answer was asked for as JSON: empty for nowhere, ``-`` for stdout. Which file it is changes no answer.
    """
    fresh: list[Answer] = []
    file = None if json in ("", "-") else Path(json)
    if file is not None and file.exists() and not file.is_file():
        raise typer.Exit(ask())  # a pipe or a device: what went into it cannot be read again

    def make() -> Answer:
        with heard() as text:
            code = ask()
        inside = "" if file is None else file.read_text(encoding="utf-8")
        fresh.append(Answer(text="".join(text), file=inside, code=code))
        return fresh[0]

    found = kept("answer", _key(job, {**asked, "json": json if file is None else "a file"}), Answer, make)
    if not fresh:
        if file is not None:
            with whole(file, OWN_FILE) as aside:
                aside.write_text(found.file, encoding="utf-8")
        sys.stdout.write(found.text)
    raise typer.Exit(found.code)


@contextmanager
def heard() -> Iterator[list[str]]:
    """Yield what is written to stdout meanwhile, piece by piece, as it is written."""
    out = _Heard(sys.stdout)
    with redirect_stdout(cast("TextIO", out)):
        yield out.written


def _key(job: Job, asked: Mapping[str, object]) -> str:
    """Return the key of an answer."""
    return key_of(ANSWER_VERSION, sorted(asked.items()), *facts_of(job))


def facts_of(job: Job) -> tuple[object, ...]:
    """Return all that what a command says of a job hangs on, beside what the command was called with.

    The job's text is one of it: a remedy is tried on the text, and one that cannot be written there is not offered.
    """
    files = [path.read_bytes() if path.is_file() else b"" for path in (job.path, *(part.mesh for part in job.parts))]
    wide = os.get_terminal_size().columns if sys.stdout.isatty() else None
    looks = [os.environ.get(name) for name in LOOKS]
    proved = [keys_in(room) for room in ASKED_FOR]
    here = (Path.cwd(), date.today(), wide, sys.stdout.encoding, looks)
    return program_stamp(), job, here, proved, *files

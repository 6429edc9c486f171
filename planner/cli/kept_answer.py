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

ANSWER_VERSION = 2
"""Raised whenever the record of an answer changes."""
ASKED_FOR = ("elements", "rebore")
"""Rooms of the cache that other commands fill, and whose answers are told from then on."""
LOOKS = ("NO_COLOR", "FORCE_COLOR", "TERM", "COLORTERM", "COLUMNS", "LINES", "TTY_COMPATIBLE", "TTY_INTERACTIVE")
"""What tells a terminal's colours and width, beside the terminal."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What a command wrote to stdout, and its exit code."""

    text: str
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


def answer(job: Job, asked: Mapping[str, object], ask: Callable[[], int]) -> None:
    """Say what a command says of a job, from its record or by asking, and leave with its exit code.

    Parameters
    ----------
    job
        As read, with the options that change it.
    asked
        The command's name, and all else that it was called with.
    ask
        Writes the answer to stdout and nowhere else, and returns the exit code.
    """
    fresh: list[Answer] = []

    def make() -> Answer:
        with heard() as text:
            code = ask()
        fresh.append(Answer(text="".join(text), code=code))
        return fresh[0]

    found = kept("answer", _key(job, asked), Answer, make)
    if not fresh:
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

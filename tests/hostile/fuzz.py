"""Mutated files before every reader: each is read, healed, or refused in one sentence, in bounded time."""

from __future__ import annotations

import random
import re
import shutil
import time
import traceback
import warnings
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.errors import FitwrightError
from tests.hostile.mutants import mutated
from tests.hostile.readers import READERS, sound_files

SECONDS_MOST = 20.0
SENTENCE_MOST = 2700
"""Letters: what an error tells of place, fault and way out, each cut where it is endless."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """What a reader did that it ought not."""

    kind: str
    what: str
    file: Path
    seconds: float


def faults(folder: Path, seed: int, n: int, kinds: Sequence[str] = tuple(READERS)) -> Iterator[Fault]:
    """Yield what goes wrong with so many mutated files; each culprit stays in the folder."""
    draw, sound = random.Random(seed), sound_files(folder / "sound")  # noqa: S311  a seeded draw
    for number in range(n):
        kind = draw.choice(kinds)
        source = draw.choice(sound[kind])
        path = folder / source.name
        data = mutated(source.read_bytes(), draw)
        if kind == "job":  # its meshes stand where they stood
            data = re.sub(rb'"([\w/-]+\.(stl|3mf|svg)")', b'"' + bytes(source.parent) + rb"/\1", data)
        path.write_bytes(data)
        begin = time.process_time()
        wrong = _wrong(kind, path)
        spent = time.process_time() - begin
        if spent > SECONDS_MOST:
            wrong = wrong or "it took too long"
        if wrong:
            culprit = folder / f"{number}-{source.name}"
            shutil.copy(path, culprit)
            yield Fault(kind=kind, what=wrong, file=culprit, seconds=spent)


def _wrong(kind: str, path: Path) -> str:
    """Return what is wrong with how a file is read; nothing where it is read or refused as it should."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            READERS[kind](path)
    except FitwrightError as refused:
        told = str(refused)
        if len(told) > SENTENCE_MOST or "\n" in told or not told.isprintable():
            return f"no sentence: {told[:200]!r}"
    except Exception as fault:  # noqa: BLE001  any other ending is what is looked for
        last = traceback.extract_tb(fault.__traceback__)[-1]
        return f"{type(fault).__name__} at {Path(last.filename).name}:{last.lineno}: {str(fault)[:100]}"
    return ""

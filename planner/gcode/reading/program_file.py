"""A program's file, taken in chunks, so that its size does not matter; what is no text is refused."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.errors import ProgramError
from planner.gcode.reading.program_words import parse

Floats = NDArray[np.float64]

CHUNK_BYTES = 2_000_000
JUNK_SHARE = 0.02
"""More bytes that are no text than this, and it is no G-code."""


def rows_of(path: Path) -> Iterator[tuple[Floats, Floats]]:
    """Yield rows of words, chunk by chunk; refuse what is no text."""
    try:
        if not path.is_file():
            raise ProgramError(where=str(path), wrong="there is no such file", todo="name a G-code program")
        with path.open("rb") as file:
            rest, seen, junk = b"", 0, 0
            while True:
                block = file.read(CHUNK_BYTES)
                seen += len(block)
                chunk = np.frombuffer(rest + block, dtype=np.uint8)
                values, codes, used, bad = parse(chunk, last=not block)
                junk += bad
                if junk > JUNK_SHARE * seen + 16 or len(chunk) - used > 4 * CHUNK_BYTES:
                    wrong = "it is packed or binary, not the text of a G-code program"
                    raise ProgramError(where=path.name, wrong=wrong, todo="export it as plain G-code text")
                yield values, codes
                rest = chunk[used:].tobytes()
                if not block:
                    return
    except OSError as problem:
        wrong = f"it cannot be read ({problem.strerror})"
        raise ProgramError(where=str(path), wrong=wrong, todo="check the path") from None

"""Words of a G-code program (ISO 6983, RS-274): bytes become rows of letters with their numbers.

A block is a line. Spaces may stand anywhere, letters may be small; ``;`` and ``( )`` begin comments, ``*`` a
checksum, ``%`` and ``/`` say nothing about motion. Comments are never read.
"""

# ruff: noqa: PLR1714  compiled code compares numbers one by one
from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bytes = NDArray[np.uint8]

LETTERS_N, CODES_MOST = 26, 4
"""Columns of a row: one for each letter; and so many G words may stand in one block."""


def parse(chunk: Bytes, *, last: bool) -> tuple[Floats, Floats, int, int]:
    """Return rows (n, 26) of numbers by letter, their G words (n, 4), the bytes used, and the bytes that are no text.

    NaN stands for what is not there. Only whole lines are used, unless the chunk is the ``last``.
    """
    lines = int(np.count_nonzero(chunk == 10)) + int(np.count_nonzero(chunk == 13)) + 1
    values = np.full((lines, LETTERS_N), np.nan)
    codes = np.full((lines, CODES_MOST), np.nan)
    rows, used, junk = _parsed(np.array(chunk), values, codes, last)  # a copy: bytes of a file cannot be written
    return values[:rows], codes[:rows], int(used), int(junk)


@njit("Tuple((i8, i8, i8))(u1[::1], f8[:, ::1], f8[:, ::1], b1)", cache=True)
def _parsed(chunk, values, codes, last):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Fill the rows; return how many, how many bytes they took, and how many bytes are no text."""
    n = chunk.shape[0]
    row, i, used, junk = 0, 0, 0, 0
    while i < n:
        any_word, code = False, 0
        while i < n and chunk[i] != 10 and chunk[i] != 13:
            c = chunk[i]
            if c >= 97 and c <= 122:
                c -= 32
            if c == 59 or c == 42:  # ; and *: the rest of the line
                while i < n and chunk[i] != 10 and chunk[i] != 13:
                    i += 1
                break
            if c == 40:  # (
                while i < n and chunk[i] != 41 and chunk[i] != 10 and chunk[i] != 13:
                    i += 1
                if i < n and chunk[i] == 41:
                    i += 1
                continue
            if c < 65 or c > 90:
                if (c < 32 and c != 9) or c >= 127:
                    junk += 1
                i += 1
                continue
            i += 1
            sign, number, digits, place = 1.0, 0.0, 0, 0.0
            while i < n:
                d = chunk[i]
                if d == 32 or d == 9:
                    i += 1
                elif d == 45 and digits == 0:
                    sign = -1.0
                    i += 1
                elif d == 43 and digits == 0:
                    i += 1
                elif d == 46 and place == 0.0:
                    place = 1.0
                    i += 1
                elif d >= 48 and d <= 57:
                    number = number * 10.0 + (d - 48)
                    digits += 1
                    if place > 0.0:
                        place *= 10.0
                    i += 1
                else:
                    break
            value = sign * number / place if place > 0.0 else sign * number
            if digits == 0:  # a letter alone, as X in G28 X
                value = 0.0
            any_word = True
            if c == 71:
                if code < codes.shape[1]:
                    codes[row, code] = value
                    code += 1
            else:
                values[row, c - 65] = value
        if i >= n and not last:
            for k in range(values.shape[1]):
                values[row, k] = np.nan
            for k in range(codes.shape[1]):
                codes[row, k] = np.nan
            break
        if any_word or code > 0:
            row += 1
        i += 1
        used = i
    return row, min(used, n), junk

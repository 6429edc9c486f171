"""Words of a G-code program (ISO 6983, RS-274): bytes become rows of letters with their numbers.

A block is a line. Spaces may stand anywhere, letters may be small; ``;`` and ``( )`` begin comments, ``*`` a
checksum, ``%`` and ``/`` say nothing about motion. Comments are never read.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Bytes = NDArray[np.uint8]

LETTERS_N, CODES_MOST = 26, 8
"""Columns of a row: one for each letter; and so many G words may stand in one block."""

LETTER_D, LETTER_E, LETTER_F, LETTER_G = (ord(letter) - 65 for letter in "DEFG")
LETTER_I, LETTER_J, LETTER_K = (ord(letter) - 65 for letter in "IJK")
LETTER_M, LETTER_P, LETTER_R, LETTER_S, LETTER_T = (ord(letter) - 65 for letter in "MPRST")
LETTER_X, LETTER_Y, LETTER_Z = (ord(letter) - 65 for letter in "XYZ")
"""Columns of the letters that have a meaning here."""

TEXT, LETTER, BLANK, DIGIT, POINT, MINUS, PLUS, END, REST, OPEN, CLOSE, JUNK = range(12)
"""What a byte is: ``REST`` means that the rest of the line says nothing about motion."""


def _kinds() -> Bytes:
    """Return what each of the 256 bytes is."""
    table = np.full(256, TEXT, dtype=np.uint8)
    table[:32] = table[127:] = JUNK
    for kind, members in (
        (LETTER, b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"),
        (BLANK, b" \t"),
        (DIGIT, b"0123456789"),
        (POINT, b"."),
        (MINUS, b"-"),
        (PLUS, b"+"),
        (END, b"\n\r"),
        (REST, b";*"),
        (OPEN, b"("),
        (CLOSE, b")"),
    ):
        table[np.frombuffer(members, dtype=np.uint8)] = kind
    return table


KINDS = _kinds()


def parse(chunk: Bytes, *, last: bool) -> tuple[Floats, Floats, int, int]:
    """Return rows (n, 26) of numbers by letter, their G words (n, 8), the bytes used, and the bytes that are no text.

    NaN stands for what is not there. Only whole lines are used, unless the chunk is the ``last``.
    """
    lines = int(np.count_nonzero(chunk == 10)) + int(np.count_nonzero(chunk == 13)) + 1
    values = np.full((lines, LETTERS_N), np.nan)
    codes = np.full((lines, CODES_MOST), np.nan)
    rows, used, junk = _parsed(np.array(chunk), values, codes, last)  # a copy: bytes of a file cannot be written
    return values[:rows], codes[:rows], int(used), int(junk)


@njit(cache=True)
def _after(chunk, i, stop):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Return the place of the next byte of a kind, or of the line's end."""
    while i < chunk.shape[0] and KINDS[chunk[i]] not in (stop, END):
        i += 1
    return i


@njit(cache=True)
def _number(chunk, i):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Read the number behind a letter; return it and the place after it. A letter alone (the X of G28 X) counts 0."""
    sign, number, digits, place = 1.0, 0.0, 0, 0.0
    while i < chunk.shape[0]:
        kind = KINDS[chunk[i]]
        if kind == DIGIT:
            number = number * 10.0 + (chunk[i] - 48)
            digits += 1
            place *= 10.0
        elif kind == POINT and place == 0.0:
            place = 1.0
        elif kind == MINUS and digits == 0:
            sign = -1.0
        elif kind != BLANK and not (kind == PLUS and digits == 0):
            break
        i += 1
    return sign * number / max(place, 1.0), i


@njit(cache=True)
def _block(chunk, i, values, codes):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Fill one row from a line; return the place of its end, whether it has words, and how many bytes are no text."""
    any_word, code, junk = False, 0, 0
    while i < chunk.shape[0] and KINDS[chunk[i]] != END:
        kind = KINDS[chunk[i]]
        if kind == LETTER:
            letter = (chunk[i] & 0xDF) - 65  # the bit of small letters taken away
            number, i = _number(chunk, i + 1)
            any_word = True
            if letter != LETTER_G:
                values[letter] = number
            elif code < codes.shape[0]:
                codes[code] = number
                code += 1
        elif kind == REST:
            i = _after(chunk, i, END)
        elif kind == OPEN:
            i = _after(chunk, i, CLOSE)
            i += i < chunk.shape[0] and KINDS[chunk[i]] == CLOSE
        else:
            junk += kind == JUNK
            i += 1
    return i, any_word, junk


@njit(cache=True)
def _parsed(chunk, values, codes, last):  # type: ignore[no-untyped-def] # noqa: ANN001, ANN202
    """Fill the rows; return how many, how many bytes they took, and how many bytes are no text."""
    n = chunk.shape[0]
    row, i, used, junk = 0, 0, 0, 0
    while i < n:
        i, any_word, odd = _block(chunk, i, values[row], codes[row])
        junk += odd
        if i >= n and not last:
            values[row] = np.nan
            codes[row] = np.nan
            break
        row += any_word
        i += 1
        used = i
    return row, min(used, n), junk

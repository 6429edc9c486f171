"""Words of a program, read from bytes."""

from __future__ import annotations

import numpy as np

from planner.gcode.reading.program_words import LETTER_F, LETTER_X, LETTER_Y, parse


def _bytes(text: str) -> np.ndarray:
    """Return a text as a chunk of a file."""
    return np.frombuffer(text.encode(), dtype=np.uint8)


def test_spaces_small_letters_and_comments_do_not_matter() -> None:
    """``g 01 x 1.5y-2`` is G1 X1.5 Y-2, and numbers within comments are never read (RS-274)."""
    values, codes, _, junk = parse(_bytes("n10 g 01 x 1.5y-2 (X9 F1) ; X7\n"), last=True)

    assert (values[0, LETTER_X], values[0, LETTER_Y]) == (1.5, -2.0)
    assert np.isnan(values[0, LETTER_F])
    assert codes[0, 0] == 1.0
    assert np.isnan(codes[0, 1:]).all()
    assert junk == 0


def test_half_a_line_waits_for_the_rest() -> None:
    """``G1 X1`` at the end of a chunk may go on to be X12: it is used only where the chunk is the last."""
    text = _bytes("G1 X4\nG1 X1")

    assert [parse(text, last=last)[2] for last in (False, True)] == [6, 11]
    assert [len(parse(text, last=last)[0]) for last in (False, True)] == [1, 2]


def test_bytes_that_are_no_text_are_counted() -> None:
    """Control bytes do not stand in a program."""
    assert parse(np.array([71, 49, 0, 1, 200, 10], dtype=np.uint8), last=True)[3] == 3

"""The interpreter: different words for one path are one path."""

from __future__ import annotations

import numpy as np
import pytest

from planner.gcode.reading.interpreter import moves_of
from planner.gcode.reading.machine_state import DE, FEED, X0, X1, Z0, Z1, start_state
from planner.gcode.reading.program_words import parse

PLAIN = "G90\nM83\nG1 X10 Y0 F1200 E1\nG1 X10 Y20 E2\nG1 Z5\n"


def _moves(text: str) -> np.ndarray:
    """Return the moves of a text."""
    values, codes, _, _ = parse(np.frombuffer(text.encode(), dtype=np.uint8), last=True)
    return moves_of(values, codes, start_state(1500.0))


@pytest.mark.parametrize(
    "text",
    [
        "G91\nM83\nG1 X10 F1200 E1\nG1 Y20 E2\nG1 Z5\n",
        "G90\nM82\nG1 X10 Y0 F1200 E1\nG1 Y20 E3\nG1 Z5\n",
        "G90\nM83\nG1 F1200\nX10 Y0 E1\nX10 Y20 E2\nZ5\n",
        "G90\nM83\nG92 X100\nG1 X110 Y0 F1200 E1\nG1 X110 Y20 E2\nG1 Z5\n",
    ],
    ids=["relative", "absolute filament", "modal", "another origin"],
)
def test_other_words_for_a_path_give_the_same_moves(text: str) -> None:
    """Relative places, absolute filament, words that stay in force and a shifted origin (ISO 6983, RS-274)."""
    wanted = _moves(PLAIN)

    np.testing.assert_allclose(_moves(text), wanted)
    assert wanted[:, X1 : Z1 + 1].tolist() == [[10, 0, 0], [10, 20, 0], [10, 20, 5]]
    assert wanted[:, DE].tolist() == [1, 2, 0]
    assert wanted[:, FEED] == pytest.approx(20.0)


def test_inches_are_25_4_mm() -> None:
    """A path in inches is that of its mm, feed and filament with it (ISO 6983: G20)."""
    np.testing.assert_allclose(
        _moves("G20\nG90\nM83\nG1 X1 F60 E.1\n"), _moves("G21\nG90\nM83\nG1 X25.4 F1524 E2.54\n")
    )


def test_an_arc_is_as_long_as_its_circle() -> None:
    """Three quarters to the left from (10, 0) about the origin: 3/2 pi r, rising evenly by 3 mm."""
    moves = _moves("G90\nG1 X10 Y0 F1200\nG3 X0 Y-10 I-10 J0 Z3\n")[1:]
    flat = np.linalg.norm(moves[:, X1 : X1 + 2] - moves[:, X0 : X0 + 2], axis=1).sum()

    assert flat == pytest.approx(1.5 * np.pi * 10, rel=1e-3)
    assert np.diff(moves[:, Z1]) == pytest.approx(3.0 / len(moves), abs=1e-9)
    assert moves[-1, X1 : Z1 + 1] == pytest.approx([0.0, -10.0, 3.0])
    assert moves[0, Z0] == 0.0

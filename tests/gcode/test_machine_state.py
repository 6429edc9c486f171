"""Words and moves: programs of others give the extents that geometry gives, and nothing crashes the reader."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from planner.gcode.machine_state import DE, FEED, UNKNOWN, X0, X1, Z1, moves_of, start_state
from planner.gcode.program_words import parse
from tests.shapes import DATA

Floats = NDArray[np.float64]


def _moves(text: str | bytes) -> tuple[Floats, Floats]:
    """Return the moves of a text, and the state after it."""
    raw = text.encode() if isinstance(text, str) else text
    state = start_state(1500.0)
    values, codes, _, _ = parse(np.frombuffer(raw, dtype=np.uint8), last=True)
    return moves_of(values, codes, state), state


def _length(moves: Floats) -> float:
    """Return the length of a path."""
    return float(np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : X0 + 3], axis=1).sum())


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("one-inch-circle.nc", (-12.7, -12.7, 0.0), (12.7, 12.7, 6.35)),
        ("spaces.gcode", (-5.0, 0.0, 0.0), (-5.0, 0.0, 0.0)),
        # Radius 20 from (0, 20) to (10, 0): centres at (-9.83, 2.58) and (19.83, 17.42), so x reaches 10.17 and -0.17.
        ("arc-r.nc", (-0.168, 0.0, 0.0), (10.168, 20.0, 0.0)),
        ("arc-yz-plane.nc", (0.0, -20.0, -20.0), (0.0, 20.0, 20.0)),
        ("g92offset.nc", (0.0, 0.0, -1.0), (2.0, 4.0, 6.0)),
    ],
)
def test_programs_of_others_reach_what_geometry_says(
    name: str, low: tuple[float, float, float], high: tuple[float, float, float]
) -> None:
    """Extents by hand (open programs, MIT: inches, spaces, arcs by radius and in other planes, offsets)."""
    moves, _ = _moves((DATA / "gcode" / name).read_bytes())

    assert moves[:, X1 : Z1 + 1].min(axis=0) == pytest.approx(low, abs=0.003)
    assert moves[:, X1 : Z1 + 1].max(axis=0) == pytest.approx(high, abs=0.003)


@settings(max_examples=60)
@given(
    r=st.floats(0.5, 200), start=st.floats(0, 360), turn=st.floats(1, 359), left=st.booleans(), rise=st.floats(-5, 5)
)
def test_an_arc_is_as_long_as_geometry_says(r: float, start: float, turn: float, left: bool, rise: float) -> None:
    """Length of a helix: sqrt((r theta)2 + rise2), within 0.01 %; its end is exact (ISO 6983: I, J from the start)."""
    way = 1.0 if left else -1.0
    a, b = math.radians(start), math.radians(start + way * turn)
    x, y = r * math.cos(a), r * math.sin(a)
    text = f"G1 X{x:.9f} Y{y:.9f} F600\nG{3 if left else 2} X{r * math.cos(b):.9f} Y{r * math.sin(b):.9f} Z{rise:.9f} I{-x:.9f} J{-y:.9f} E1\n"
    moves, _ = _moves(text)
    arc = moves[1:]

    assert _length(arc) == pytest.approx(math.hypot(r * math.radians(turn), rise), rel=1e-4, abs=0.004)
    assert arc[-1, X1 : Z1 + 1] == pytest.approx([r * math.cos(b), r * math.sin(b), rise], abs=1e-6)
    assert arc[:, DE].sum() == pytest.approx(1.0)


def test_a_whole_turn_is_one() -> None:
    """Same start and end: a full circle (ISO 6983)."""
    moves, _ = _moves("G1 X10 Y0 F600\nG2 X10 Y0 I-10 J0\n")

    assert _length(moves[1:]) == pytest.approx(20 * math.pi, rel=1e-4)


def test_absolute_relative_and_inches_say_the_same() -> None:
    """One square written four ways gives the same moves."""
    absolute = "G90\nM82\nG1 X10 Y0 E1 F600\nG1 X10 Y10 E2\nG1 X0 Y10 E3\n"
    relative = "G91\nM83\nG1 X10 E1 F600\nG1 Y10 E1\nG1 X-10 E1\n"
    inches = "G20 G91\nG1 X.39370078740 E.03937007874 F23.622047244\nG1 Y.39370078740 E.03937007874\nG1 X-.39370078740 E.03937007874\n"
    shifted = "G92 X100 Y50 E7\nG1 X110 Y50 E8 F600\nG1 X110 Y60 E9\nG1 X100 Y60 E10\n"
    first, *others = (_moves(text)[0] for text in (absolute, relative, inches, shifted))

    for other in others:
        assert other[:, : FEED + 1] == pytest.approx(first[:, : FEED + 1], abs=1e-6)


def test_how_a_block_is_written_does_not_matter() -> None:
    """Spaces within, small letters, line numbers, checksums, comments, deleted blocks and line ends (RS-274)."""
    plain, _ = _moves("G1 X10.5 Y-2 F600\nG1 X1 Y1\n")
    odd, _ = _moves("%\r\nN10 g 1 x 1 0.5(to X99)y-2 f6 00*71 G1 X5\r\n; G1 X50\r\n/N20 G1X1Y1\r\n")

    assert odd == pytest.approx(plain, nan_ok=True)


def test_unknown_words_are_counted_and_harmless() -> None:
    """A word of another machine is passed over."""
    moves, state = _moves("G1 X1 F600\nM987 S1\nG77 X5\nG1 X2\n")

    assert state[UNKNOWN] == 2
    assert moves[-1, X1] == 2.0


@settings(max_examples=150)
@given(st.binary(max_size=400))
def test_any_bytes_are_survived(raw: bytes) -> None:
    """Junk gives moves or none, never an error."""
    moves, _ = _moves(raw)

    assert moves.shape[1] == 13


@settings(max_examples=150)
@given(st.text(alphabet="GMXYZEFIJKRSP0123456789.- \n();*%", max_size=300))
def test_any_words_are_survived(text: str) -> None:
    """Mangled programs give moves or none, never an error, in any cut of the text."""
    moves, _ = _moves(text)
    raw = np.frombuffer(text.encode(), dtype=np.uint8)
    values, codes, used, _ = parse(raw, last=False)
    state = start_state(1500.0)
    rest = raw[used:].tobytes()
    first = moves_of(values, codes, state)
    values, codes, _, _ = parse(np.frombuffer(rest, dtype=np.uint8), last=True)
    again = np.concatenate([first, moves_of(values, codes, state)])

    assert again == pytest.approx(moves, nan_ok=True)

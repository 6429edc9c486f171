"""Words and moves: programs of others give the extents that geometry gives, and nothing crashes the reader."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from planner.gcode.reading.interpreter import moves_of
from planner.gcode.reading.machine_state import (
    BARE_N,
    DE,
    E_DOUBT_N,
    FAN,
    FEED,
    LOST_N,
    NOZZLE,
    UNKNOWN,
    X0,
    X1,
    Z1,
    start_state,
)
from planner.gcode.reading.program_words import parse
from tests.shapes import DATA

Floats = NDArray[np.float64]


def _moves(text: str | bytes, *, e_by_g: bool = False) -> tuple[Floats, Floats]:
    """Return the moves of a text, and the state after it."""
    raw = text.encode() if isinstance(text, str) else text
    state = start_state(1500.0, e_by_g=e_by_g)
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


def test_unknown_words_are_counted_and_move_nothing() -> None:
    """A word of another machine is passed over; where it names places, the block is counted as not followed."""
    moves, state = _moves("G1 X1 F600\nM987 S1\nG77 X5\nG78\nG1 X2\n")

    assert (state[UNKNOWN], state[LOST_N]) == (3, 1)
    assert moves[:, X1].tolist() == [1.0, 2.0]


def test_letters_of_a_word_that_sets_something_move_nothing() -> None:
    """Limits of the axes (M201 X, M205 X), a probe's place (G30 X) and steps of filament (M92 E) are no moves."""
    moves, state = _moves("G1 X1 F600\nM201 X500 Y500\nM205 X10\nG30 X7 Y7\nM84 E\nG1 X2\n")

    assert moves[:, X1].tolist() == [1.0, 2.0]
    assert state[LOST_N] == 0


def test_a_block_may_hold_many_words() -> None:
    """Eight G words, one of each modal group, and a move (RS-274), and an M word beside a move."""
    moves, _ = _moves("G17 G21 G40 G49 G80 G90 G94 G1 X10 Y2 F600\nG1 X20 M106 S255\nX30\n")

    assert moves[:, X1].tolist() == [10.0, 20.0, 30.0]
    assert moves[-1, FAN] == 1.0


@pytest.mark.parametrize(
    ("text", "by_m", "by_g", "doubts"),
    [
        ("M83\nG90\nG1 X1 E2 F600\nG1 X2 E2\n", [2.0, 2.0], [2.0, 0.0], 2),  # M83, then G90
        ("G90\nM83\nG1 X1 E2 F600\nG1 X2 E2\n", [2.0, 2.0], [2.0, 2.0], 0),  # the usual order
        ("M82\nG91\nG1 X1 E2 F600\nG1 X1 E2\n", [2.0, 0.0], [2.0, 2.0], 2),  # M82, then G91
        ("G91\nG1 X1 E2 F600\nG1 X1 E2\n", [2.0, 2.0], [2.0, 2.0], 0),  # no M word: ISO 6983 rules all axes
    ],
)
def test_what_rules_filament_is_read_both_ways(text: str, by_m: list[float], by_g: list[float], doubts: int) -> None:
    """ISO 6983's G90 and G91 rule all axes; M82 and M83 alone rule E on some printers: each reading by hand."""
    moves, state = _moves(text)
    other, _ = _moves(text, e_by_g=True)

    assert moves[:, DE].tolist() == by_m
    assert other[:, DE].tolist() == by_g
    assert state[E_DOUBT_N] == doubts


def test_g92_without_a_letter_sets_every_axis_to_zero_and_is_counted_where_it_matters() -> None:
    """At zero it changes nothing; at X 10 the next X 5 lies at 15. RS-274 calls it an error, printers do this."""
    _, harmless = _moves("G28\nG92\nG1 X5 F600\n")
    moves, state = _moves("G1 X10 Y3 E4 F600\nG92\nG1 X5 E1\n")

    assert harmless[BARE_N] == 0
    assert state[BARE_N] == 1
    assert moves[-1, [X1, X1 + 1, DE]].tolist() == [15.0, 3.0, 1.0]


def test_filament_in_volume_is_turned_into_length() -> None:
    """M200 D1.75: 2.405 mm3 are 1 mm of filament of 1.75 mm (pi d2 / 4); M200 D0 takes it back."""
    moves, _ = _moves("M83\nM200 D1.75\nG1 X1 E2.40528 F600\nM200 D0\nG1 X2 E3\n")

    assert moves[:, DE] == pytest.approx([1.0, 3.0], rel=1e-5)


def test_each_tool_has_its_own_temperature_and_other_fans_cool_no_part() -> None:
    """T words choose whose temperature counts; M106 P1 is another fan."""
    text = "M104 T1 S210\nM104 S235\nM106 P1 S255\nG1 X1 F600\nT1\nG1 X2\nT0\nM106 S51\nG1 X3\n"
    moves, _ = _moves(text)

    assert moves[:, NOZZLE].tolist() == [235.0, 210.0, 235.0]
    assert moves[:, FAN] == pytest.approx([0.0, 0.0, 0.2])


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

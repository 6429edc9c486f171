"""What words do, as ISO 6983 and RS-274 have it."""

from __future__ import annotations

import pytest

from planner.gcode.reading import vocabulary as v


@pytest.mark.parametrize(
    ("word", "does"),
    [
        *[(n, v.G_MOVE) for n in (0, 1, 2, 3)],
        (4, v.G_DWELL),
        *[(n, v.G_PLANE) for n in (17, 18, 19)],
        (90, v.G_DISTANCE),
        (91, v.G_DISTANCE),
        (92, v.G_PLACE),
        (92.1, v.G_PLACE),
        (5.2, v.G_UNKNOWN),
    ],
)
def test_g_words_do_what_the_standard_says(word: float, does: int) -> None:
    """Motion, dwell, planes and distance modes by their numbers in ISO 6983-1 and RS-274; tenths are words of their own."""
    assert v.G_WORDS[round(10 * word)] == does


def test_inches_and_millimetres_are_not_mixed_up() -> None:
    """G20 is inches and G21 millimetres (RS-274)."""
    assert (v.G_WORDS[200], v.G_WORDS[210]) == (v.G_INCH, v.G_MM)


def test_waiting_for_a_temperature_sets_it_too() -> None:
    """M109 and M190 set what M104 and M140 do (common practice, no source)."""
    assert [v.M_WORDS[n] for n in (104, 109, 140, 190)] == [v.M_NOZZLE, v.M_NOZZLE, v.M_BED, v.M_BED]

"""Speeds against the bed's warmth, the printer's pace and each other."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Job, read_printer
from tests.rules.asked import asked

GO, WORK = Verdict.GO, Verdict.GO_WITH_WORK


@pytest.mark.parametrize(("bed_c", "most_mm_s"), [(20.0, 20.0), (35.0, 35.0), (50.0, 50.0), (65.0, 50.0), (0.0, 20.0)])
def test_the_first_layer_is_slower_on_a_colder_bed(block: Job, bed_c: float, most_mm_s: float) -> None:
    """PLA from 20 to 50 °C: 20 to 50 mm/s in proportion, no less below and no more above."""
    just, over = (
        asked(block, "speed.first", material="pla", bed_c=bed_c, first_layer_speed_mm_s=most_mm_s + more)[0]
        for more in (0.0, 1.0)
    )

    assert (just.verdict, over.verdict) == (GO, WORK)
    assert over.limit == pytest.approx(most_mm_s)


@pytest.mark.parametrize(
    ("printer", "speed_mm_s", "verdict", "word"),
    [
        ("bench-220", 90.0, GO, False),
        ("bench-220", 91.0, GO, True),
        ("bench-220", 135.0, GO, True),
        ("bench-220", 136.0, WORK, False),
        ("cabinet-250", 200.0, GO, False),
        ("cabinet-250", 301.0, WORK, False),
    ],
)
def test_outlines_are_drawn_slower_than_the_printer_runs(
    block: Job, printer: str, speed_mm_s: float, verdict: Verdict, word: bool
) -> None:
    """Half of 180 and 400 mm/s without a word, three quarters with one."""
    own = replace(block, printer=read_printer(printer, Path()))
    (found,) = asked(own, "speed.ringing", outer_contour_speed_mm_s=speed_mm_s)

    assert (found.verdict, bool(found.caution)) == (verdict, word)


@pytest.mark.parametrize(
    ("rule", "changes"),
    [
        ("speed.outer", {"outer_contour_speed_mm_s": 70.0, "inner_contour_speed_mm_s": 50.0}),
        ("speed.travel", {"travel_speed_mm_s": 60.0}),
        ("speed.reach", {"travel_speed_mm_s": 400.0}),
        ("acceleration.least", {"acceleration_mm_s2": 150.0}),
        ("acceleration.reach", {"acceleration_mm_s2": 9000.0}),
    ],
)
def test_what_only_costs_time_or_looks_is_a_word(block: Job, rule: str, changes: dict[str, Any]) -> None:
    """Each of them goes, with a caution; the settings as shipped get none."""
    (found,) = asked(block, rule, **changes)

    assert (found.verdict, bool(found.caution)) == (GO, True)
    assert not asked(block, rule)[0].caution


def test_soft_filament_is_pushed_slowly(block: Job) -> None:
    """TPU at 80 mm/s buckles, at 40 mm/s it does not; PETG is not asked."""
    slow: dict[str, Any] = dict.fromkeys(
        ("outer_contour_speed_mm_s", "inner_contour_speed_mm_s", "solid_fill_speed_mm_s", "infill_speed_mm_s"), 40.0
    )

    assert asked(block, "speed.flexible", material="tpu")[0].verdict is WORK
    assert asked(block, "speed.flexible", material="tpu", **slow)[0].verdict is GO
    assert asked(block, "speed.flexible") == []

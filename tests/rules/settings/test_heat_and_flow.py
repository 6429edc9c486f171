"""Speed, temperature and flow together, worked out by hand on both sides of each limit."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Job, read_printer
from planner.layers import bead_area_mm2
from tests.rules.asked import asked

GO, WORK, NO = Verdict.GO, Verdict.GO_WITH_WORK, Verdict.NO_GO
DRAFT: dict[str, Any] = {"layer_height_mm": 0.28, "first_layer_height_mm": 0.28}


def test_the_flow_asked_for_is_bead_times_speed(block: Job) -> None:
    """60 mm/s of a 0.45 x 0.2 bead is 4.885 mm3/s (closed form: stadium of w h - h2 (1 - pi/4))."""
    flow = next(f for f in asked(block, "flow.melt") if f.feature == "inner contour")

    assert flow.measured == pytest.approx(4.885, abs=1e-3)
    assert flow.measured == pytest.approx(60 * bead_area_mm2(0.45, 0.2))


@pytest.mark.parametrize(
    ("speed_mm_s", "verdict", "word"), [(98, GO, False), (99, GO, True), (122, GO, True), (123, WORK, False)]
)
def test_a_flow_in_doubt_is_a_word_and_one_that_does_not_melt_is_work(
    block: Job, speed_mm_s: float, verdict: Verdict, word: bool
) -> None:
    """Every such hot end melts 8 mm3/s, 98 mm/s of 0.0814 mm2; PETG lets 10 through, 122 mm/s."""
    found = next(f for f in asked(block, "flow.melt", infill_speed_mm_s=float(speed_mm_s)) if f.feature == "infill")

    assert (found.verdict, bool(found.caution)) == (verdict, word)


@pytest.mark.parametrize(("nozzle_c", "verdict"), [(180.0, WORK), (191.0, WORK), (192.0, GO), (200.0, GO)])
def test_much_flow_wants_heat(block: Job, nozzle_c: float, verdict: Verdict) -> None:
    """80 mm/s of 0.1092 mm2 is 8.73 of 11 mm3/s, 79.4 %: 180 + 20 x (79.4 - 50) / 50 = 191.8 °C."""
    (found,) = asked(block, "flow.heat", material="pla", nozzle_c=nozzle_c, **DRAFT)

    assert found.verdict is verdict
    assert found.limit == pytest.approx(191.75, abs=0.05)


def test_where_the_printer_is_too_cool_speeds_fall(block: Job) -> None:
    """Nylon at 258 °C: 18 of 25 °C above the low end, 86 % of 9 mm3/s, 95 mm/s of 0.0814 mm2; 108 mm/s want 264 °C."""
    found = asked(block, "flow.heat", material="pa12", nozzle_c=258.0, infill_speed_mm_s=108.0)

    assert {f.feature: f.verdict for f in found}["infill"] is WORK
    assert [f.limit for f in found] == pytest.approx([95.07] * 4, abs=0.05)
    assert {f.verdict for f in found if f.feature != "infill"} == {GO}


@pytest.mark.parametrize(
    ("rule", "changes", "verdict"),
    [
        ("nozzle.range", {"nozzle_c": 189.0}, NO),
        ("nozzle.range", {"nozzle_c": 191.0}, WORK),
        ("nozzle.range", {"nozzle_c": 220.0}, GO),
        ("nozzle.range", {"nozzle_c": 260.0}, GO),
        ("nozzle.range", {"nozzle_c": 261.0}, WORK),
        ("nozzle.reach", {"nozzle_c": 260.0}, GO),
        ("nozzle.reach", {"nozzle_c": 261.0}, NO),
        ("bed.range", {"bed_c": 59.0}, WORK),
        ("bed.range", {"bed_c": 90.0}, GO),
        ("bed.range", {"bed_c": 91.0}, WORK),
        ("bed.reach", {"bed_c": 101.0}, NO),
    ],
)
def test_temperatures_keep_the_materials_range_and_the_printers_reach(
    block: Job, rule: str, changes: dict[str, Any], verdict: Verdict
) -> None:
    """PETG from 220 to 260 and 60 to 90 °C; a printer for 260 and 100 °C; 30 °C under the range nothing comes out."""
    assert asked(block, rule, **changes)[0].verdict is verdict


def test_a_material_whose_range_begins_in_reach_is_work(block: Job) -> None:
    """Nobody stated 265 °C for nylon, and 260 °C is in its range; PC on a printer for 250 °C is out of reach."""
    cool = replace(
        block, printer=replace(block.printer, nozzle_max_c=replace(block.printer.nozzle_max_c, value=255.0, low=255.0))
    )

    assert asked(block, "nozzle.reach", material="pa12")[0].verdict is WORK
    assert asked(cool, "nozzle.reach", material="pc")[0].verdict is NO
    assert "another printer" in asked(cool, "nozzle.reach", material="pc")[0].remedy


def test_a_printer_that_melts_more_is_held_to_the_material(block: Job) -> None:
    """The cabinet's hot end melts 20 mm3/s, PETG lets 10 through."""
    own = replace(block, printer=read_printer("cabinet-250", Path()))

    assert asked(own, "flow.melt", infill_speed_mm_s=130.0)[0].limit == 10.0

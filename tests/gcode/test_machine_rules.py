"""A program's hours and grams are told beside the plan's; temperatures and flow end where the profiles say."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.finding import Finding, Verdict
from planner.gcode.expected import Expected
from planner.gcode.machine_rules import machine_findings
from planner.job import Material, Printer, Settings


def _found(
    printer: Printer, petg: Material, settings: Settings, planned: tuple[float | None, float | None], **more: Any
) -> dict[str, Finding]:
    """Return the findings about a program of 10 cm3 and 3600 s that is as planned but for what is named."""
    first, layer = settings.first_layer_height_mm.value, settings.layer_height_mm.value
    facts: dict[str, Any] = {
        "spiral_turns_n": 0.0,
        "heights_mm": first + layer * np.arange(3),
        "volumes_mm3": np.ones(3),
        "nozzle_c": {petg.nozzle_c.value: 10_000.0},
        "bed_c": {petg.bed_c.value: 10_000.0},
        "peak_flow_mm3_s": 1.0,
        "rim_mm": np.array([[50.0, 50.0], [90.0, 50.0], [90.0, 90.0]]),
        "high_mm": np.array([90.0, 90.0, 20.0]),
        "deposited_mm3": 10_000.0,
        "duration_s": 3600.0,
    }
    expected = Expected(
        plate=1, parts=(), printer=printer, material=petg, settings=settings, duration_s=planned[0], mass_g=planned[1]
    )
    measured: Any = SimpleNamespace(**facts | more)
    return {finding.rule: finding for finding in machine_findings(measured, expected)}


def test_hours_and_grams_far_apart_are_a_caution_and_no_verdict(
    printer: Printer, petg: Material, standard: Settings
) -> None:
    """10 cm3 of petg weigh their density times ten; an hour's motion takes the heat-up more. Twice that is told, not held."""
    grams, seconds = 10.0 * petg.density_g_cm3.value, 3600.0 + printer.heat_up_s.value
    same = _found(printer, petg, standard, (seconds, grams))
    apart = _found(printer, petg, standard, (seconds / 2, grams / 2))
    withheld = _found(printer, petg, standard, (None, None))

    for rule, real in (("program.mass", grams), ("program.time", seconds / 3600.0)):
        assert same[rule].measured == pytest.approx(real)
        assert not same[rule].caution
        assert apart[rule].caution == "That is 100 % apart: compare the settings."
        assert apart[rule].verdict is same[rule].verdict is Verdict.GO
        assert rule not in withheld


@pytest.mark.parametrize("off_c", [-0.6, -0.4, 0.4, 0.6])
def test_a_nozzle_half_a_degree_past_its_range_is_refused(
    printer: Printer, petg: Material, standard: Settings, off_c: float
) -> None:
    """Both ends of the range that governs, 0.4 and 0.6 degrees beyond: half a degree is rounding."""
    usual = replace(standard, nozzle_c=None)
    end = petg.nozzle_c.low if off_c < 0 else petg.nozzle_c.high
    found = _found(printer, petg, usual, (None, None), nozzle_c={end + off_c: 10_000.0})["program.nozzle"]

    assert found.verdict is (Verdict.NO_GO if abs(off_c) > 0.5 else Verdict.GO)


def test_filament_before_any_temperature_holds_and_cold_filament_is_refused(
    printer: Printer, petg: Material, standard: Settings
) -> None:
    """Nothing set is unknown, a hold; 100 degrees is known, and too cold."""
    unset = _found(printer, petg, standard, (None, None), nozzle_c={-np.inf: 10_000.0})
    cold = _found(printer, petg, standard, (None, None), nozzle_c={100.0: 10_000.0})

    assert unset["program.nozzle"].verdict is Verdict.HOLD
    assert cold["program.cold"].verdict is Verdict.NO_GO


def test_more_flow_than_can_be_melted_is_refused(printer: Printer, petg: Material, standard: Settings) -> None:
    """The lesser of hot end and material, with the slack of the limits' profile: just under it passes, just over does not."""
    limit = min(printer.melt_rate_mm3_s.value, petg.melt_rate_mm3_s.value)
    slack = Expected(
        plate=1, parts=(), printer=printer, material=petg, settings=standard, duration_s=None, mass_g=None
    ).limits.of("program.flow", "slack_percent")
    end = limit * (1.0 + slack.value / 100.0)
    verdicts = [
        _found(printer, petg, standard, (None, None), peak_flow_mm3_s=share * end)["program.flow"].verdict
        for share in (0.999, 1.001)
    ]

    assert verdicts == [Verdict.GO, Verdict.NO_GO]


def test_layers_of_another_height_are_refused(printer: Printer, petg: Material, standard: Settings) -> None:
    """Steps of 0.3 mm where 0.2 are planned; the first layer is a rule of its own."""
    first = standard.first_layer_height_mm.value
    found = _found(printer, petg, standard, (None, None), heights_mm=first + 0.3 * np.arange(3))

    assert found["program.layer"].verdict is Verdict.NO_GO
    assert found["program.first"].verdict is Verdict.GO


@pytest.mark.parametrize(("high_mm", "over_mm"), [(240.0, 0.0), (240.5, 0.5), (245.0, 5.0)])
def test_lines_above_the_height_of_the_printer_are_refused(
    printer: Printer, petg: Material, standard: Settings, high_mm: float, over_mm: float
) -> None:
    """The bench printer is 240 mm high; its bed holds all lines here, so that the height alone is past it."""
    assert printer.bed.height_mm == 240.0
    found = _found(printer, petg, standard, (None, None), high_mm=np.array([90.0, 90.0, high_mm]))["program.bed-edge"]

    assert found.measured == pytest.approx(over_mm)
    assert found.verdict is (Verdict.NO_GO if over_mm else Verdict.GO)


@pytest.mark.parametrize(("under_c", "over_c"), [(3.0, 4.0), (4.0, 3.0)])
def test_of_two_temperatures_the_one_farther_outside_is_told(
    printer: Printer, petg: Material, standard: Settings, under_c: float, over_c: float
) -> None:
    """Below the range and above it at once: the one that is farther off is named, with the end that it passed."""
    usual, ends = replace(standard, nozzle_c=None), petg.nozzle_c
    laid = {ends.low - under_c: 5_000.0, ends.high + over_c: 5_000.0}
    found = _found(printer, petg, usual, (None, None), nozzle_c=laid)["program.nozzle"]

    far = (ends.high + over_c, ends.high) if over_c > under_c else (ends.low - under_c, ends.low)
    assert (found.measured, found.limit) == far

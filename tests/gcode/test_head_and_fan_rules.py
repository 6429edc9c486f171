"""The head's way and the fan: each limit from both sides, with measures written by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.finding import Finding, Verdict
from planner.gcode.expected import Expected
from planner.gcode.head_and_fan_rules import motion_findings
from planner.job import Material, Printer, Settings

Found = dict[str, Finding]


@pytest.fixture(name="expected")
def _expected(printer: Printer, petg: Material, standard: Settings) -> Expected:
    """Return a plate of nothing on bench-220."""
    return Expected(plate=1, parts=(), printer=printer, material=petg, settings=standard, duration_s=None, mass_g=None)


def _found(expected: Expected, **more: Any) -> Found:
    """Return the findings about a program over the bed's middle, its fan as set, but for what is named."""
    settings = expected.settings
    heights = settings.first_layer_height_mm.value + settings.layer_height_mm.value * np.arange(20)
    facts: dict[str, Any] = {
        "reach_mm": np.array([[50.0, 50.0, 0.2], [90.0, 90.0, 20.0]]),
        "struck_mm": np.zeros(4),
        "heights_mm": heights,
        "volumes_mm3": np.ones(20),
        "fan_mm3": np.full(20, settings.fan_percent.value / 100.0),
        "doubts": SimpleNamespace(e_blocks_n=0, e_by_g=False, bare_n=0, lost_n=0),
    }
    measured: Any = SimpleNamespace(**facts | more)
    return {finding.rule: finding for finding in motion_findings(measured, expected)}


def _limit(expected: Expected, rule: str, key: str) -> float:
    """Return a limit."""
    return expected.limits.of(rule, key).value


def test_a_program_as_planned_goes_without_a_word(expected: Expected) -> None:
    """Two findings, both go, no caution, no remedy."""
    found = _found(expected)

    assert set(found) == {"program.reach", "program.fan"}
    assert all((f.verdict, f.caution, f.remedy) == (Verdict.GO, "", "") for f in found.values())


@pytest.mark.parametrize(("axis", "name"), [(0, "X"), (1, "Y"), (2, "Z")])
def test_beside_the_bed_is_a_caution_and_farther_a_no_go(expected: Expected, axis: int, name: str) -> None:
    """A hair within the limit is told, a hair beyond refused, on every axis; the axis and its place are named."""
    bed, beside = expected.printer.bed, _limit(expected, "program.reach", "beside_mm")
    end = (*bed.size_mm, bed.height_mm)[axis]
    for past, verdict in ((beside - 0.01, Verdict.GO), (beside + 0.01, Verdict.NO_GO)):
        reach = np.array([[50.0, 50.0, 0.2], [90.0, 90.0, 20.0]])
        reach[1, axis] = end + past
        found = _found(expected, reach_mm=reach)["program.reach"]

        assert found.verdict is verdict
        assert found.measured == pytest.approx(past)
        assert f"is sent to {name}{end + past:g}" in found.why
        assert bool(found.caution) is (verdict is Verdict.GO and past > 0.02)


def test_left_of_the_bed_is_told_by_the_place_there(expected: Expected) -> None:
    """Sent to X-30 and no farther right than 90: X-30 is named, 30 mm past."""
    found = _found(expected, reach_mm=np.array([[-30.0, 50.0, 0.2], [90.0, 90.0, 20.0]]))["program.reach"]

    assert "X-30, 30.0 mm past" in found.why
    assert found.verdict is Verdict.NO_GO


def test_into_the_bed_comes_before_all_else(expected: Expected) -> None:
    """Half a millimetre below the surface is told though the head goes beside the bed, too; a hair within the dip is not."""
    dip = _limit(expected, "program.reach", "below_mm")
    deep = np.array([[-300.0, 50.0, -dip - 0.5], [90.0, 90.0, 20.0]])
    shallow = np.array([[50.0, 50.0, -dip + 0.001], [90.0, 90.0, 20.0]])

    assert f"{dip + 0.5:.2f} mm into the bed" in _found(expected, reach_mm=deep)["program.reach"].why
    assert _found(expected, reach_mm=shallow)["program.reach"].verdict is Verdict.GO


def test_a_nozzle_that_runs_into_what_stands_there_is_refused_with_the_place(expected: Expected) -> None:
    """A hair below the limit nothing is said; a hair above: where, how high and how deep."""
    deep = _limit(expected, "program.strikes", "deep_mm")
    found = _found(expected, struck_mm=np.array([deep + 0.01, 10.0, 20.0, 3.0]))["program.strikes"]

    assert "program.strikes" not in _found(expected, struck_mm=np.array([deep, 10.0, 20.0, 3.0]))
    assert found.verdict is Verdict.NO_GO
    assert "X10.0 Y20.0 at Z3.00" in found.why


def test_the_fan_may_rest_below_and_must_run_as_set_above(expected: Expected) -> None:
    """Off in the first layers alone is fine; off by more than the limit above them, or off at all, is a hold."""
    planned, apart = expected.settings.fan_percent.value, _limit(expected, "program.fan", "apart_percent")
    rests_n = int(_limit(expected, "program.fan", "rests_layers")) + 1
    begins = np.full(20, planned / 100.0)
    begins[:rests_n] = 0.0
    verdicts = {
        "rests": _found(expected, fan_mm3=begins),
        "near": _found(expected, fan_mm3=np.full(20, (planned - apart + 0.1) / 100.0)),
        "far": _found(expected, fan_mm3=np.full(20, (planned - apart - 0.1) / 100.0)),
        "off": _found(expected, fan_mm3=np.zeros(20)),
    }

    assert {name: found["program.fan"].verdict for name, found in verdicts.items()} == {
        "rests": Verdict.GO,
        "near": Verdict.GO,
        "far": Verdict.HOLD,
        "off": Verdict.HOLD,
    }
    assert "never starts" in verdicts["off"]["program.fan"].why


def test_a_program_of_a_few_layers_says_nothing_of_its_fan(expected: Expected) -> None:
    """It ends where the fan may rest: a go without a measure, not one that was measured."""
    found = _found(expected, heights_mm=np.array([0.2]), volumes_mm3=np.ones(1), fan_mm3=np.zeros(1))["program.fan"]

    assert (found.verdict, found.measured) == (Verdict.GO, None)
    assert "ends within its first" in found.why


@pytest.mark.parametrize(
    ("doubt", "rule", "verdict"),
    [
        ("e_blocks_n", "program.modes", Verdict.GO),
        ("bare_n", "program.origin", Verdict.HOLD),
        ("lost_n", "program.words", Verdict.HOLD),
    ],
)
def test_words_that_machines_read_in_two_ways_are_counted(
    expected: Expected, doubt: str, rule: str, verdict: Verdict
) -> None:
    """Three blocks each: one is a caution, the places that were not followed are a hold."""
    doubts = SimpleNamespace(**{"e_blocks_n": 0, "e_by_g": True, "bare_n": 0, "lost_n": 0, doubt: 3})
    found = _found(expected, doubts=doubts)[rule]

    assert (found.verdict, found.measured) == (verdict, 3.0)
    assert bool(found.caution) is (verdict is Verdict.GO)

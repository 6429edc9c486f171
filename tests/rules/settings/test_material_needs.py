"""What a material asks of printer and room, planted and right."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Verdict
from planner.job import Job, Material
from planner.sourced import stated
from tests.rules.asked import asked

GO, WORK, HOLD = Verdict.GO, Verdict.GO_WITH_WORK, Verdict.HOLD


def test_a_soft_part_of_a_hard_material_gets_a_word(block: Job) -> None:
    """A pad whose duty is soft prints hard in PETG and soft in TPU; it once was go without a word."""
    soft = replace(block, parts=tuple(replace(part, duty="soft") for part in block.parts))

    assert [found.part for found in asked(soft, "material.soft", material="petg") if found.caution] == [
        p.name for p in soft.parts
    ]
    assert list(asked(soft, "material.soft", material="tpu")) == []


@pytest.mark.parametrize(
    ("rule", "material", "changes", "verdict", "word"),
    [
        ("material.enclosure", "abs", {}, HOLD, False),
        ("material.enclosure", "petg", {}, GO, False),
        ("fan.range", "petg", {"fan_percent": 61.0}, WORK, False),
        ("fan.range", "petg", {"fan_percent": 60.0}, GO, False),
        ("fan.range", "pla", {"fan_percent": 40.0}, GO, True),
        ("bed.soft", "pla", {"bed_c": 90.0}, GO, True),
        ("bed.soft", "pla", {"bed_c": 72.0}, GO, False),
        ("material.air", "abs", {}, GO, True),
        ("material.dry", "petg", {}, GO, True),
        ("material.dry", "pla", {}, GO, False),
    ],
)
def test_a_material_asks_for_what_it_needs(
    block: Job, rule: str, material: str, changes: dict[str, Any], verdict: Verdict, word: bool
) -> None:
    """ABS splits in the open, PETG parts under a strong fan, PLA sags under a weak one and spreads on a bed over 72 °C."""
    (found,) = asked(block, rule, material=material, **changes)

    assert (found.verdict, bool(found.caution)) == (verdict, word)


def test_a_soft_nozzle_wears(block: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """No shipped material is abrasive, so one is made so."""
    from planner.job import read_material as read

    monkeypatch.setattr("tests.rules.asked.read_material", lambda name, base: replace(read(name, base), abrasive=True))
    hard = replace(block, printer=replace(block.printer, hardened_nozzle=True))

    assert asked(block, "nozzle.wear")[0].verdict is WORK
    assert asked(hard, "nozzle.wear")[0].verdict is GO


def test_a_profile_without_ranges_stops_nothing_ordinary(block: Job, monkeypatch: pytest.MonkeyPatch) -> None:
    """An own profile says 235 and 75 °C, fan 40 %, and no range: 10 °C and 30 % beside it go, twice that is work."""
    from planner.job import read_material as read

    def plain(name: str, base: Path) -> Material:
        own = read(name, base)
        return replace(own, nozzle_c=stated(235.0), bed_c=stated(75.0), fan_percent=stated(40.0))

    monkeypatch.setattr("tests.rules.asked.read_material", plain)
    near: dict[str, Any] = {"nozzle_c": 226.0, "bed_c": 68.0, "fan_percent": 60.0}
    far: dict[str, Any] = {"nozzle_c": 215.0, "bed_c": 55.0, "fan_percent": 80.0}
    rules = ("nozzle.range", "bed.range", "fan.range")

    assert {asked(block, rule, **near)[0].verdict for rule in rules} == {GO}
    assert {asked(block, rule, **far)[0].verdict for rule in rules} == {WORK}
    assert asked(block, "speed.first", bed_c=70.0, first_layer_speed_mm_s=30.0)[0].verdict is GO
    assert asked(block, "flow.heat", nozzle_c=229.0)[0].verdict is GO

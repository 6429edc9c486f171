"""Remedies for settings: the smallest change, written into the job and judged again; a material, printer or nozzle."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_job, write_edits
from planner.plan import prepare, proved_remedies
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid

CASES = {
    "layer_height_mm = 0.5": {"layer_height_mm": 0.32},
    "nozzle_c = 180.0": {"nozzle_c": 225.0},
    "contours_n = 1": {"contours_n": 3},
    "fan_percent = 100.0": {"fan_percent": 60.0},
    "bed_c = 60.0\nfirst_layer_speed_mm_s = 60.0": {"first_layer_speed_mm_s": 20.0},
    "solid_top_mm = 0.2\ninfill_percent = 10.0": {"solid_top_mm": 0.6},
}
"""Settings that do not go, and what cures them: ends of the ranges that the rules print, rounded inward by hand."""


@pytest.mark.parametrize("more", CASES)
def test_one_change_of_settings_cures_all_that_it_can(make_job: MakeJob, tmp_path: Path, more: str) -> None:
    """One remedy, found from the job file as it is, and the new file goes."""
    ready = prepare(make_job(PART + f"[settings]\n{more}\n", a=cuboid(40, 30, 10)), TODAY)
    (remedy,) = proved_remedies(ready).found
    changed = prepare(read_job(write_edits(ready.job, remedy.does, "", tmp_path / "new.toml")), TODAY)

    assert (remedy.kind, dict(remedy.does[0].put)) == ("settings", CASES[more])
    assert check(changed.bound, 100.0).verdict is remedy.leaves_verdict is Verdict.GO


def test_what_warps_in_the_open_goes_to_a_closed_printer(make_job: MakeJob) -> None:
    """ABS in an open frame is a hold; nothing else keeps 60 °C in the shipped list and needs no cabinet but PETG."""
    text = PART.replace('"petg"', '"abs"') + "[settings]\nfan_percent = 20.0\n"
    ready = prepare(make_job(text, a=cuboid(40, 30, 10)), TODAY)
    found = proved_remedies(ready).found
    settled = {rule for remedy in found for rule, _, _, _ in remedy.settles}

    assert {"material.enclosure", "material.suits"} <= settled
    assert {remedy.kind for remedy in found} <= {"material", "printer"}


def test_a_car_wants_another_material(make_job: MakeJob) -> None:
    """PETG softens in a parked car; on a closed printer a material that keeps its shape there is named."""
    text = PART.replace("[[part]]", 'printer = "cabinet-250"\n[[part]]') + '[use]\nkept = ["car"]\n'
    (remedy,) = proved_remedies(prepare(make_job(text, a=cuboid(40, 30, 10)), TODAY)).found

    assert remedy.kind == "material"
    assert {rule for rule, _, _, _ in remedy.settles} == {"heat.over"}


def test_a_wall_that_lies_flat_is_printed_in_thinner_layers(make_job: MakeJob) -> None:
    """1.1 mm hold six layers of 0.18 mm (1.08), not of 0.2 (1.2): the part has a layer height of its own, no new nozzle."""
    (remedy,) = proved_remedies(prepare(make_job(PART, a=cuboid(40, 30, 1.1)), TODAY)).found

    assert remedy.text == "print a with layers of 0.18 mm instead of 0.2 mm"
    assert [(edit.table, edit.put) for edit in remedy.does] == [("part", {"layer_height_mm": 0.18})]
    assert remedy.leaves_verdict.passes

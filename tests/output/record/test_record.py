"""The record of a plan: any part, setting or size that changes makes it another device."""

from __future__ import annotations

from dataclasses import replace

from planner.output.record.record import ROLES, blank, lots_of, of_plan
from planner.plan import Plan
from planner.sourced import stated
from tests.plan.jobs import changed


def test_a_blank_record_asks_for_everything(plan: Plan) -> None:
    """Each role, test, lot and measure, all without an answer but the measures of the job."""
    record = blank(plan, "a4")

    assert [role for role, _ in record.roles] == list(ROLES)
    assert not any(one.result or one.reading for one in record.trials)
    assert tuple(one.of for one in record.lots) == lots_of(plan)
    assert [one.name for one in record.measures] == [one.name for one in plan.job.size.measures]


def test_another_setting_is_another_device(plan: Plan) -> None:
    """One value of the print settings changes their fingerprint, and nothing else."""
    settings = replace(plan.job.settings, infill_percent=stated(99.0))
    one, other = of_plan(plan, "a4"), of_plan(changed(plan, job=replace(plan.job, settings=settings)), "a4")

    assert one.settings_sha256 != other.settings_sha256
    assert replace(one, settings_sha256="") == replace(other, settings_sha256="")


def test_every_material_has_its_lot(plan: Plan) -> None:
    """Filament by colour, hardware by size, cuts by width: each once."""
    lots = lots_of(plan)

    assert len(set(lots)) == len(lots)
    assert {f"{plate.group.material} {plate.group.colour}" for plate in plan.plates} <= set(lots)

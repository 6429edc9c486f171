"""The chapter's printers in a job."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path

from planner.cli.ledger.chapter_printers import blocked_of, ran_out, windows_told, with_printers
from planner.job import Attended, printers_of
from tests.conftest import MakeJob
from tests.plan.jobs import job_text
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)


def _row(name: str, profile: str, until: str | None = None) -> dict[str, object]:
    """Return a printer as the ledger has it."""
    return {"name": name, "profile": profile, "attended": [], "calibrated_until": until}


def test_two_of_a_kind_are_two_printers_and_a_job_may_run_on_all(make_job: MakeJob) -> None:
    """bench-1 and bench-2 are both of the job's own kind; the cabinet is there too. A job that names its own keeps it."""
    job = make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4))
    rows = [_row("bench-1", "bench-220"), _row("bench-2", "bench-220"), _row("cabinet", "cabinet-250")]
    found = with_printers(job, rows, Path(), TODAY)

    assert [printer.name for printer in printers_of(found)] == ["bench-1", "bench-2", "cabinet"]
    assert with_printers(job, [_row("large", "large-350")], Path(), TODAY) is job


def test_a_coupon_that_ran_out_is_no_measurement(make_job: MakeJob) -> None:
    """Valid until today it counts, until yesterday it does not."""
    job = make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4))
    job = replace(job, printer=replace(job.printer, calibrated=True))
    for until, counts in (("2026-12-01", True), ("2026-11-30", False)):
        rows = [_row("bench-220", "bench-220", until)]
        shop = with_printers(job, rows, Path(), TODAY)
        assert shop.printer.calibrated is counts


def test_a_coupon_counts_for_its_printer_nozzle_and_material_alone(make_job: MakeJob) -> None:
    """A coupon in petg with 0.4 mm on bench-1: in another material, with another nozzle or on bench-2 nobody measured."""
    job = make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4))
    job = replace(job, printer=replace(job.printer, calibrated=True))
    rows = [_row("bench-1", "bench-220")]
    right = {"printer": "bench-1", "nozzle_mm": 0.4, "material": job.materials[0].name, "until": "2026-12-01"}
    others = ({"until": "2026-11-30"}, {"nozzle_mm": 0.6}, {"material": "tpu"})
    for change, counts in (({}, True), *((other, False) for other in others)):
        found = with_printers(job, rows, Path(), TODAY, [{**right, **change}])
        assert found.printer.calibrated is counts
        assert ran_out(found, rows, TODAY, [{**right, **change}]) is not counts
    elsewhere = [{**right, "printer": "bench-2", "until": "2026-01-01"}]
    assert with_printers(job, rows, Path(), TODAY, elsewhere).printer.calibrated
    assert not ran_out(with_printers(job, rows, Path(), TODAY), rows, TODAY, elsewhere)


def test_a_printer_has_the_nozzle_that_is_in_it(make_job: MakeJob) -> None:
    """Of two of a kind the one with the job's nozzle comes first, and the other is told by its 0.6 mm."""
    job = make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4))
    rows = [{**_row("bench-1", "bench-220"), "nozzle_mm": 0.6}, _row("bench-2", "bench-220")]
    found = with_printers(job, rows, Path(), TODAY)

    assert [(p.name, p.nozzle_mm.value) for p in printers_of(found)] == [("bench-2", 0.4), ("bench-1", 0.6)]
    assert with_printers(job, rows[:1], Path(), TODAY).printer.nozzle_mm.value == 0.6


def test_nothing_is_planned_on_a_blocked_printer(make_job: MakeJob) -> None:
    """Its twin takes the job, else another kind that can print it; where none can, it is told what it waits for."""
    job = make_job(job_text(("block", 1, "cover")), block=cuboid(20, 20, 4))
    rows = [{**_row("bench-1", "bench-220"), "blocked": "new hot end"}, _row("bench-2", "bench-220")]
    cabs = [_row("cab", "cabinet-250"), {**_row("thick", "cabinet-250"), "nozzle_mm": 0.6}]

    assert [p.name for p in printers_of(with_printers(job, rows, Path(), TODAY))] == ["bench-2"]
    assert blocked_of(with_printers(job, rows, Path(), TODAY), rows) is None
    assert [p.name for p in printers_of(with_printers(job, [rows[0], *cabs], Path(), TODAY))] == ["cab"]
    waiting = (
        with_printers(job, rows[:1], Path(), TODAY),
        with_printers(job, [rows[0], cabs[1]], Path(), TODAY),  # the settings are for another nozzle
        with_printers(job, [rows[0], {**cabs[0], "blocked": "belt"}], Path(), TODAY),
        with_printers(job, [rows[0], cabs[0]], Path(), TODAY, stand_in=False),
        with_printers(replace(job, more_printers=(job.printer,)), [rows[0], cabs[0]], Path(), TODAY),
    )
    for waits in waiting[:4]:
        assert [p.name for p in printers_of(waits)] == ["bench-1"]
        assert re.search(r"bench-1 \(new hot end\).*fitwright measured bench-1", str(blocked_of(waits, rows)))
    assert [p.name for p in printers_of(waiting[4])] == ["bench-1"]  # it names its printers, and keeps to them


def test_own_hours_are_read() -> None:
    """As in a job file."""
    assert windows_told(["Sat 09:00-18:00"]) == (Attended(days=(5,), from_min=540, to_min=1080),)

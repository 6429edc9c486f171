"""Estimates on every printer: the job's own are known, another's are made once and as a part alone would be."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.job import read_printer
from planner.layers import estimate_part
from planner.plan import Plan
from planner.plan.parts.estimates import Estimates


@pytest.fixture(name="estimates", scope="module")
def _estimates(heron_plan: Plan) -> Estimates:
    """Return the estimates of the lock pin, and of a part that has none, on two printers."""
    pin = next(part for part in heron_plan.parts if part.part.name == "lock-pin")
    unsound = replace(pin, part=replace(pin.part, name="torn"), estimate=None)
    job = replace(heron_plan.job, more_printers=(read_printer("small-180", Path()),))
    return Estimates(job, heron_plan.material, [pin, unsound])


def test_the_jobs_own_printer_is_known_by_its_name_or_none(estimates: Estimates) -> None:
    """The very estimates of the parts; a part without one is left out."""
    own = estimates.on("")

    assert own is estimates.on(estimates.job.printer.name)
    assert list(own) == ["lock-pin"]
    assert own["lock-pin"] is estimates.parts[0].estimate


def test_another_printer_is_asked_once_with_its_own_speeds(estimates: Estimates) -> None:
    """Equal to the part laid alone for that printer; the second question makes nothing."""
    there, pin = estimates.on("small-180"), estimates.parts[0]
    alone = estimate_part(
        pin.posed,
        settings=estimates.job.settings,
        printer=read_printer("small-180", Path()),
        material=estimates.material,
    )

    assert there["lock-pin"].duration_s == alone.duration_s != estimates.on("")["lock-pin"].duration_s
    assert estimates.on("small-180") is there

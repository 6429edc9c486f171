"""A changed job is judged as a check of the new file would judge it."""

from __future__ import annotations

from planner.job import Edit, read_job, with_edits, write_edits
from planner.plan import prepare
from planner.plan.changed_job import stands
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import TODAY, pinned

EDITS = (
    [Edit(table="job", put={"printer": "large-350"})],
    [Edit(table="size", put={"percent": 140.0})],
    [Edit(table="settings", put={"line_width_mm": 0.42})],
    [Edit(table="settings", put={"nozzle_c": 225.0, "bed_c": 65.0, "fan_percent": 20.0, "least_layer_s": 6.0})],
    [Edit(table="job", put={"nozzle_mm": 0.6})],
    [Edit(table="hardware", name="pin", put={"diameter_mm": 6.0})],
    [Edit(table="part", name="a", put={"pose": [0.0, 1.0, 0.0]})],
)


def test_in_memory_and_from_the_file_a_changed_job_is_the_same(make_job: MakeJob) -> None:
    """Printer, size, settings, hardware and pose: every finding of fit has the same rule, part, verdict and numbers."""
    ready = pinned(make_job, 5.0, 5.0)
    _, again = stands(ready)
    for k, edits in enumerate(EDITS):
        stand = again(with_edits(ready.job, edits))
        path = write_edits(ready.job, edits, "", ready.job.path.with_name(f"new-{k}.toml"))
        fresh = prepare(read_job(path), TODAY)
        read = {(f.rule, f.part, f.why) for f in check(fresh.bound, fresh.sizing.percent).findings}
        kept = {(f.rule, f.part, f.why) for found in stand.answers.values() for f in found if f not in stand.more}

        assert stand.percent == fresh.sizing.percent
        assert kept == read, edits

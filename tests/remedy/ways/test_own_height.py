"""A part with a layer height of its own that its nozzle cannot lay: the nearest height that passes, in its own table."""

from __future__ import annotations

from planner.job import Edit, read_job, write_edits
from planner.plan import prepare, proved_remedies
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid


def test_an_own_layer_height_is_set_to_the_nearest_that_passes(make_job: MakeJob) -> None:
    """0.5 mm is too thick for a nozzle of 0.4 mm: the part's own height changes, and that of the others stays."""
    text = PART + PART[PART.index("[[part]]") :].replace('"a', '"b') + "layer_height_mm = 0.5\n"
    ready = prepare(make_job(text, a=cuboid(20, 20, 6), b=cuboid(20, 20, 6)), TODAY)
    assert [f for f in check(ready.bound, 100.0).findings if f.rule == "layer.height" and not f.verdict.passes]
    remedies = proved_remedies(ready)
    (remedy,) = [one for one in remedies.found if "layer_height_mm" in one.text]
    after = prepare(read_job(write_edits(ready.job, remedy.does, "", ready.job.path.with_name("new.toml"))), TODAY)

    assert remedies.unsettled == ()
    assert isinstance(remedy.does[0], Edit)
    assert (remedy.does[0].table, remedy.does[0].name) == ("part", "b")
    assert after.job.settings == ready.job.settings
    assert after.job.part("b").layer_height_mm == 0.32
    assert check(after.bound, 100.0).verdict.passes

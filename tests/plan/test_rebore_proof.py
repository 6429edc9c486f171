"""What ``window`` promises of re-boring is what ``rebore`` gives."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from manifold3d import Manifold

from planner.job import Calendar, Job, kind_of, with_changes
from planner.plan import prepare, prepare_rebored, what_widens
from planner.plan.rebore_proof import proof_key, proved
from planner.rules import check
from planner.size import Widening, window
from tests.conftest import MakeJob
from tests.shapes import solid_of

TODAY = date(2026, 12, 1)
STRAP = (
    '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
    '[[strap]]\nname = "strap"\npart = "a"\nwebbing_mm = 15.0\nslot_mm = 16.0\naround_mm = 190.0\n'
)


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a plate with a slot of 16 x 4 mm that ends 3 mm from either side."""
    plate = Manifold.cube((22, 20, 4)) - Manifold.cube((16, 4, 6)).translate((3, 8, -1))
    return make_job(STRAP, a=solid_of(plate))


def rebored_passes(job: Job, percent: float) -> bool:
    """Return what the command would: whether the re-bored parts pass."""
    _, after = prepare_rebored(prepare(with_changes(job, percent=percent), TODAY))
    return check(after.bound, 100.0).verdict.passes


def promised(job: Job) -> Widening:
    """Return what the other rules promise of re-boring every opening."""
    ready = prepare(with_changes(job, percent=100.0), TODAY)
    rest = [rule for rule in ready.bound.rules if not kind_of(rule.rule).rebore]
    interval = window(rest, 100.0).workable.nearest
    assert interval is not None
    recut = frozenset({("a", "")})
    return Widening(what="rebore", interval=interval, gain_percent=1.0, reaches=False, recut=recut, proved=False)


def test_every_size_promised_of_reboring_works_when_it_is_done(job: Job) -> None:
    """A slot that is lengthened needs 1.35 mm beyond each end: 22 s - 16.05 = 2.7 gives s = 0.852."""
    step, *others = proved(prepare(with_changes(job, percent=100.0), TODAY), (promised(job),))
    low = step.interval.low_percent

    assert not others
    assert step.proved
    assert low is not None
    assert low == pytest.approx(100 * (16.05 + 2 * 1.35) / 22, abs=0.6)
    for percent in (low, low + 0.7, low + 3.0, 97.0):
        assert rebored_passes(job, percent), percent
    assert not rebored_passes(job, low - 1.0)


def test_what_is_not_proved_says_so(job: Job) -> None:
    """Without the proof the interval is what the other rules allow, and the words say who tries it."""
    step = promised(job)

    assert not step.proved
    assert "not proved" in step.told
    assert "fitwright window --prove tries it" in step.told
    assert not rebored_passes(job, (step.interval.low_percent or 0.0) + 0.5)


def test_what_window_proved_is_shown_as_proved(
    job: Job, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, make_job: MakeJob
) -> None:
    """A plan, and so its page, tells the range that window proved of the same meshes; of others it is not proved."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path / "kept"))
    ready = prepare(with_changes(job, percent=100.0), TODAY)
    before = [step for step in what_widens(ready) if step.recut]
    shown = [step for step in what_widens(ready, prove=True) if step.recut]
    after = [step for step in what_widens(ready) if step.recut]
    plate = Manifold.cube((24, 20, 4)) - Manifold.cube((16, 4, 6)).translate((4, 8, -1))
    other = prepare(with_changes(make_job(STRAP, a=solid_of(plate)), percent=100.0), TODAY)

    assert before
    assert not any(step.proved for step in before)
    assert after == shown
    assert all(step.proved and "(proved: " in step.told for step in after)
    assert not any(step.proved for step in what_widens(other) if step.recut)


def test_a_proof_is_found_again_in_a_chapter(job: Job) -> None:
    """A chapter's job begins now and has other grams on its spools: neither makes a proof another; another size does."""
    ready = prepare(with_changes(job, percent=100.0), TODAY)
    step, begun = promised(job), Calendar(start=datetime(2026, 12, 1, 8))
    later = replace(ready, job=replace(ready.job, calendar=begun), today=TODAY + timedelta(days=1))

    assert proof_key(later, step) == proof_key(ready, step)
    assert proof_key(prepare(with_changes(job, percent=99.0), TODAY), step) != proof_key(ready, step)

"""What one remedy should settle together."""

from __future__ import annotations

from planner.plan.changed_job import stands
from planner.remedy.group import groups_of
from tests.conftest import MakeJob
from tests.remedy.devices import pinned


def test_bores_of_one_pin_are_one_group_and_come_apart(make_job: MakeJob) -> None:
    """Three tight bores for one kind of pin are settled together, or each alone."""
    stand, _ = stands(pinned(make_job, 5.0, 5.0, y_mm=(10.0, 20.0, 30.0)))
    (group,) = groups_of(stand)

    assert len(group.features) == 3
    assert [one.features for one in group.alone()] == [(feature,) for feature in group.features]
    assert {claim.hardware.name for claim in group.claims} == {"pin"}


def test_what_fits_and_what_is_decided_need_no_remedy(make_job: MakeJob) -> None:
    """A bore of 5.5 mm prints at 5.3 and takes the pin; one that the job drills is decided."""
    work = '[[work]]\npart = "a"\nbores = ["b1"]\nkind = "drill"\nto_mm = 5.2\n'

    assert groups_of(stands(pinned(make_job, 5.0, 5.5))[0]) == []
    assert groups_of(stands(pinned(make_job, 5.0, 5.0, more=work))[0]) == []

"""Openings that a job asks for and nothing tells of: each is a hold that asks for its width, never a go."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.of_job.channel_rules import channel_rules
from planner.rules.of_job.opening_rules import gap_rules, seat_rules, slot_rules
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cuboid

PART = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "a.stl"\nduty = "load"\n' for name in "ab"
)
ASKED = {
    "seat.missing": '[[hardware]]\nname = "it"\nkind = "nut"\ndiameter_mm = 3.0\njoins = ["a"]\n',
    "channel.missing": '[[cord]]\nname = "it"\npart = "a"\ndiameter_mm = 1.0\n',
    "slot.missing": '[[strap]]\nname = "it"\npart = "a"\nwebbing_mm = 25.0\n',
    "gap.missing": '[[gap]]\nbetween = ["a", "b"]\n',
}


@pytest.mark.parametrize("rule", ASKED)
def test_what_cannot_be_measured_holds_with_a_question(make_job: MakeJob, rule: str) -> None:
    """A block without any opening, and no width stated for it: held at every size, by a rule of its own, and asked."""
    solid = cuboid(40, 30, 8)
    job = make_job(PART + ASKED[rule], a=solid)
    surveys = dict.fromkeys("ab", survey(solid))
    downs = dict.fromkeys("ab", (0.0, 0.0, -1.0))
    found = (
        *seat_rules(job, surveys, downs).rules,
        *channel_rules(job, surveys, downs, frozenset()).rules,
        *slot_rules(job, surveys).rules,
        *gap_rules(job, {("a", "b"): None}).rules,
    )

    assert [one.rule for one in found] == [rule]
    for s in (0.5, 1.0, 2.0):
        told = found[0].at(s)
        assert (told.verdict, told.rule, told.part) == (Verdict.HOLD, rule, "a")
        assert told.question.endswith("in a, as drawn, in mm?")
        assert told.remedy.startswith("state ")

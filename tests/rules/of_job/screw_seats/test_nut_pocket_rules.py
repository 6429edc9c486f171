"""A screw's own nut is checked against the hexagonal pocket on its axis, though nobody named one for it."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Finding, Verdict
from planner.plan import prepare
from planner.rules import check
from tests.assembly.doubts.mates.test_nut_answers import TEXT, trapped
from tests.conftest import MakeJob

SCREW = '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a"]\nbore_mm = 3.4\n'
SCREW += 'fit = "sliding"\n'
PLAIN = SCREW + 'nut = "plain"\n'
OPEN = '[[open]]\nname = "pocket"\nparts = ["a"]\nbore_mm = 6.58\n'
NUT = '[[hardware]]\nname = "n"\nkind = "nut"\ndiameter_mm = 3.0\njoins = ["a"]\nbore_mm = 6.58\n'


def _seats(make_job: MakeJob, text: str, percent: float) -> list[Finding]:
    """Return what is said about seats at a size."""
    ready = prepare(make_job(TEXT + text, a=trapped(5.7)), date(2026, 12, 1))
    return [one for one in check(ready.bound, percent).findings if one.rule == "seat.tight"]


@pytest.mark.parametrize(
    ("percent", "verdict"), [(102.0, Verdict.GO), (101.0, Verdict.GO_WITH_WORK), (92.0, Verdict.HOLD)]
)
def test_a_nut_that_would_not_go_in_is_a_hold(make_job: MakeJob, percent: float, verdict: Verdict) -> None:
    """5.7 s - 0.2 mm must reach 5.5 + 0.1 mm (ISO 4032): from 101.75 % on, filed from 93 %; below, it may lie elsewhere."""
    (one,) = _seats(make_job, PLAIN, percent)

    assert one.verdict is verdict
    assert one.limit == pytest.approx(5.6)
    assert bool(one.question) is (verdict is Verdict.HOLD)


@pytest.mark.parametrize(("text", "n"), [(PLAIN + OPEN, 0), (SCREW, 0), (SCREW + NUT, 1)])
def test_what_the_job_says_of_the_pocket_goes_first(make_job: MakeJob, text: str, n: int) -> None:
    """A pocket listed as open, a screw without a nut, and a nut that is named for it, which may end the size."""
    found = _seats(make_job, text, 85.0)

    assert [one.verdict for one in found] == n * [Verdict.NO_GO]

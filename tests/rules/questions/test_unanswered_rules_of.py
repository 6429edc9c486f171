"""Rules of whole jobs under answers: what is unstated holds, what no answer mends is a no-go, stated jobs stay."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.finding import Evidence, Finding, Verdict
from planner.job import with_edits
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.rules.questions.unanswered_rule import UnansweredRule
from tests.conftest import MakeJob
from tests.rules.questions.guessed_device import guessed
from tests.shapes import cuboid

TODAY = date(2026, 12, 1)
PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n{duty}'


def _wall(make_job: MakeJob, thick_mm: float, duty: str) -> Finding:
    """Return what is said of the wall of a plate."""
    ready = prepare(make_job(PART.format(duty=duty), a=cuboid(40, 30, thick_mm)), TODAY)
    (found,) = [f for f in check(ready.bound, 100.0).findings if f.rule == "wall.thin"]
    return found


@pytest.mark.parametrize(
    ("thick_mm", "duty", "verdict", "evidence"),
    [
        (1.0, "", Verdict.HOLD, Evidence.GUESSED),
        (1.0, 'duty = "load"\n', Verdict.NO_GO, Evidence.MEASURED),
        (1.0, 'duty = "cover"\n', Verdict.GO, Evidence.MEASURED),
        (0.6, "", Verdict.NO_GO, Evidence.MEASURED),
        (1.5, "", Verdict.GO, Evidence.MEASURED),
    ],
)
def test_a_duty_that_is_left_out_is_no_verdict(
    make_job: MakeJob, thick_mm: float, duty: str, verdict: Verdict, evidence: Evidence
) -> None:
    """Load needs 1.35 mm, a cover 0.9: between the two the answer decides, beyond them it does not."""
    found = _wall(make_job, thick_mm, duty)

    assert (found.verdict, found.evidence) == (verdict, evidence)
    assert bool(found.question_id) is (evidence is Evidence.GUESSED)


def test_every_answer_given_leaves_no_guess(tmp_path: Path) -> None:
    """All first and all last answers to a bare folder: no finding is guessed, and no question has answers to choose.

    What goes through bores may leave open how many of it there are: that is asked then.
    """
    asked = prepare(guessed(tmp_path / "device"), TODAY)
    for which in (0, -1):
        ready = asked
        for _ in ("what there is", "how many"):
            edits = [edit for one in ready.asked for edit in one.doubt.options[which].edits]
            ready = prepare(with_edits(ready.job, edits), TODAY)
        after = check(ready.bound, 100.0)

        assert [f for f in after.findings if f.evidence is Evidence.GUESSED] == []
        assert [question for question in after.questions if question.options] == []


def test_the_answers_given_decide_as_the_hold_said(tmp_path: Path) -> None:
    """Whatever is answered, the verdict of a finding is one of those that its hold weighed."""
    ready = prepare(guessed(tmp_path / "device"), TODAY)
    tray = next(rule for rule in _hanging(ready) if (rule.part, rule.rule) == ("tray", "wall.thin"))
    after = {}
    for option in next(one.doubt for one in ready.asked if ("tray", "") in one.doubt.features).options:
        checked = check(prepare(with_edits(ready.job, option.edits), TODAY).bound, 100.0)
        after[option.name] = next(f.verdict for f in checked.findings if (f.part, f.rule) == ("tray", "wall.thin"))

    assert tray.at(1.0).verdict is Verdict.HOLD
    assert after == {"cover": Verdict.GO, "load": Verdict.NO_GO, "shell": Verdict.GO}


def test_a_job_that_states_what_it_needs_hangs_on_nothing(heron_ready: Prepared) -> None:
    """The sample's own job guesses nothing: no finding of it holds for an answer."""
    assert [f for f in check(heron_ready.bound, 106.5).findings if f.question_id] == []


def _hanging(ready: Prepared) -> list[UnansweredRule]:
    """Return the rules that hang on answers."""
    return [rule for rule in ready.bound.rules if isinstance(rule, UnansweredRule)]

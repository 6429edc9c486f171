"""What hangs on an answer holds with its question; what no answer changes is said as it is."""

from __future__ import annotations

import pytest

from planner.finding import Evidence, Verdict
from planner.output.page.rule_pieces import pieces_of
from planner.output.page.traced_number import printed
from tests.rules.questions.said import Says, hangs

GO, WORK, HOLD, NO = Verdict.GO, Verdict.GO_WITH_WORK, Verdict.HOLD, Verdict.NO_GO


@pytest.mark.parametrize(
    ("now", "answers", "expected"),
    [
        (NO, (NO, GO), HOLD),
        (GO, (GO, NO), HOLD),
        (GO, (GO, WORK), WORK),
        (WORK, (WORK, NO), HOLD),
        (HOLD, (GO, WORK), HOLD),
        (NO, (NO, HOLD), HOLD),
    ],
)
def test_where_answers_differ_a_guess_decides(now: Verdict, answers: tuple[Verdict, ...], expected: Verdict) -> None:
    """Never a no-go, never a go, and work only as an "if"; the question is named."""
    found = hangs(Says(below=now), *(Says(below=verdict) for verdict in answers)).at(1.0)

    assert (found.verdict, found.evidence) == (expected, Evidence.GUESSED)
    assert (found.question_id, found.question) == ("bore", "What goes in?")
    assert found.remedy.startswith("if ") or set(answers) <= {GO}


@pytest.mark.parametrize("verdict", [GO, HOLD, NO, WORK])
def test_where_answers_agree_nothing_is_guessed(verdict: Verdict) -> None:
    """One verdict under every answer is the finding's own, with no question and no "if"."""
    found = hangs(Says(below=verdict), Says(below=verdict), Says(below=verdict)).at(1.0)

    assert (found.verdict, found.evidence, found.question_id) == (verdict, Evidence.MEASURED, "")
    assert not found.remedy.startswith("if ")


def test_a_no_go_under_every_answer_tells_what_is_needed_at_least() -> None:
    """Load needs 3, a cover 2, and there is 1: it ends here, and the least that is asked for is shown."""
    found = hangs(Says(below=NO, limit=3.0), Says(below=NO, limit=3.0), Says(below=NO, limit=2.0)).at(1.0)

    assert (found.verdict, found.limit, found.evidence) == (NO, 2.0, Evidence.MEASURED)
    assert "no answer asks for less" in found.why


def test_work_that_differs_is_told_for_each_answer() -> None:
    """Drill to 3 for a screw, to 4 for a pin: nothing is ordered, both are told."""
    found = hangs(Says(below=WORK, limit=3.0), Says(below=WORK, limit=3.0), Says(below=WORK, limit=4.0)).at(1.0)

    assert (found.verdict, found.evidence) == (WORK, Evidence.GUESSED)
    assert found.remedy == "if an M3 screw goes in: mend it to 3. If a pin goes in: mend it to 4"
    assert found.work is None


def test_work_that_every_answer_asks_for_is_ordered() -> None:
    """Where screw and pin need the same bore, it is drilled: the work is data for bag and drill list."""
    found = hangs(Says(below=WORK), Says(below=WORK), Says(below=WORK)).at(1.0)

    assert found.work is not None
    assert found.work.to_mm == 2.0


def test_an_answer_that_leaves_nothing_to_judge_passes() -> None:
    """Where nothing goes in, no bore is too tight; there nothing is to be done."""
    found = hangs(Says(below=NO), Says(below=NO), None, None).at(1.0)

    assert (found.verdict, found.remedy) == (
        HOLD,
        "if an M3 screw goes in: mend it to 2. With any other answer, leave it as it is",
    )


def test_a_no_go_is_not_said_to_stand_where_combinations_were_not_tried() -> None:
    """With too many combinations to try, all that were tried say no: that holds, and ends nothing."""
    assert hangs(Says(below=NO), Says(below=NO), Says(below=NO), whole=False).at(1.0).verdict is HOLD


def test_it_turns_where_any_answer_turns() -> None:
    """At 0.8 a cover suffices, at 1.5 load does: hold in between, a no-go below, go above."""
    rule = hangs(Says(below=NO, turn=1.5), Says(below=NO, turn=1.5), Says(below=NO, turn=0.8))

    assert set(rule.turns()) == {0.8, 1.5}
    assert [rule.at(s).verdict for s in (0.5, 1.0, 2.0)] == [NO, HOLD, GO]


def test_the_page_can_follow_it() -> None:
    """A page adds and prints what it says, in a few pieces, without asking it again."""
    rule = hangs(Says(below=NO, turn=1.5), Says(below=NO, turn=1.5), Says(below=WORK, turn=0.8, limit=1.0))

    def answer(s: float) -> dict[str, object]:
        found = rule.at(s)
        return {"verdict": found.verdict.value, "why": found.why, "remedy": found.remedy, "limit": found.limit}

    pieces = pieces_of(answer, 0.5, 2.0, rule.turns())
    assert len(pieces) < 6
    for k in range(500, 2000, 7):
        s = k / 1000
        piece = next(piece for piece in pieces if s <= piece.to_factor)
        assert {key: printed(value, s) for key, value in piece.fields.items()} == answer(s)

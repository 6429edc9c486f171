"""Answers are told as one clause that says no more than it must."""

from __future__ import annotations

from itertools import product

from planner.rules.questions.if_clause import clause, one_of
from tests.rules.questions.said import BORE, DUTY


def test_a_question_whose_answers_do_not_matter_is_left_out() -> None:
    """Screw or pin, whatever the part is for; and nothing at all where every answer leads there."""
    assert clause(product((0, 1), (0, 1)), [DUTY, BORE]) == "an M3 screw goes in or a pin goes in"
    assert clause(product((0, 1), (0, 1, 2)), [DUTY, BORE]) == "anything is answered"


def test_answers_that_are_no_product_are_told_one_by_one() -> None:
    """A screw in a load part or a pin in a cover is not the same as either in either."""
    told = clause([(0, 0), (1, 1)], [DUTY, BORE])

    assert told == "it carries load and an M3 screw goes in, or it only covers and a pin goes in"


def test_an_answer_that_decides_alone_is_told_without_the_other_questions() -> None:
    """With a screw whatever the part is for, and with a pin only where it carries: that is all that is told."""
    assert clause([(0, 0), (1, 0), (0, 1)], [DUTY, BORE]) == "an M3 screw goes in, or a pin goes in and it carries load"
    assert clause([(0, 1), (0, 2), (0, 0), (1, 0)], [DUTY, BORE]) == (
        "it carries load, or it only covers and an M3 screw goes in"
    )


def test_questions_tried_one_at_a_time_are_left_out_where_all_their_answers_lead_there() -> None:
    """A bore's screw asks for drilling, and the duty's two answers leave it as it is: only the screw is told."""
    assert clause([(-1, 0), (0, -1), (1, -1)], [DUTY, BORE]) == "an M3 screw goes in"


def test_what_is_spoken_of_is_named_once_where_a_verb_follows() -> None:
    """One clause stands as it is, and two things of which no verb follows are told whole."""
    assert one_of(["the arm only covers", "the arm is a shell"]) == "the arm only covers or is a shell"
    assert one_of(["a pin of 3 mm turns", "a pin of 2 mm slides"]) == "a pin of 3 mm turns or a pin of 2 mm slides"
    assert one_of(["the arm is a shell"]) == "the arm is a shell"

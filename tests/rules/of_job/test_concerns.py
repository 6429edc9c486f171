"""Rules of a part are kept while nothing that concerns it changes: kept ones are those that would be bound anew."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from planner.job import Edit, Job, changes_of, read_job
from planner.plan import Prepared, prepare
from planner.rules import Rule
from planner.rules.of_job.concerns import concerns
from planner.rules.questions.given_answers import answered
from planner.rules.questions.unanswered_rules_of import single_answers
from tests.rules.questions.guessed_device import guessed

TODAY = date(2026, 12, 1)


def test_parts_that_an_answer_leaves_alone_have_the_same_rules(tmp_path: Path) -> None:
    """Under each answer: where a part's concerns are as before, so are all its rules, bound afresh."""
    ready = prepare(guessed(tmp_path / "device"), TODAY)
    surveys, downs = ready.surveys, ready.downs
    alone = 0
    before = _by_part(ready, ready.job)
    for given in single_answers(ready.asked):
        job = answered(ready.job, surveys, ready.asked, given)
        after = _by_part(ready, job)
        for part in downs:
            if concerns(job, part) == concerns(ready.job, part):
                assert after[part] == before[part], (given, part)
                alone += 1
    assert alone > 10


def test_what_names_another_part_alone_does_not_concern_it(heron: Path) -> None:
    """A strap of the cuff is nothing to the deck; the load on the device concerns both."""
    job = read_job(heron)
    strap, load = changes_of(
        job,
        [
            [Edit(table="strap", name="cuff strap", put={"webbing_mm": 15.0})],
            [Edit(table="use", put={"load_n": 12.5})],
        ],
    )

    assert concerns(strap.on(job), "deck") == concerns(job, "deck")
    assert concerns(strap.on(job), "cuff") != concerns(job, "cuff")
    assert concerns(load.on(job), "deck") != concerns(job, "deck")


def _by_part(ready: Prepared, job: Job) -> dict[str, list[Rule]]:
    """Return the rules of each part of a changed job, no answers asked."""
    rules = replace(ready, asked=()).rules_for(job, ready.downs)
    return {part: [rule for rule in rules if rule.part == part] for part in ready.downs}

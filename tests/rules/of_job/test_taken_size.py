"""The size that hardware has: followed beforehand over all scales, it is what its bores say one by one."""

from __future__ import annotations

from planner.plan import prepare
from planner.rules.answers_over_scale import steps_of
from planner.rules.of_job.one_size import OneSize
from tests.conftest import TODAY, MakeJob
from tests.rules.of_job.test_one_size import TEXT
from tests.shapes import bored_plate

BESIDE = (1.0 - 1e-6, 1.0, 1.0 + 1e-6)


def test_what_is_followed_is_what_the_bores_say(make_job: MakeJob) -> None:
    """A tight, a good and a loose bore of one screw: at and beside each turn and at 200 scales, size and verdict."""
    job = make_job(
        TEXT,
        a=bored_plate(40, 40, 8, [(20, 20, 3.68, 96)]),
        b=bored_plate(40, 40, 8, [(4.5, 20, 3.45, 96)]),
    )
    rules = [rule for rule in prepare(job, TODAY).bound.rules if isinstance(rule, OneSize)]
    seen = set()
    for rule in rules:
        steps, pieces = steps_of(rule), rule.pieces
        turns = [turn * beside for turn in {*rule.turns(), *pieces.steps.turns} for beside in BESIDE]
        for s in (*turns, *(0.5 + 0.0125 * n for n in range(200))):
            verdict = rule.at(s).verdict
            assert rule.verdict(s) is verdict, (rule.rule, rule.part, s)
            assert steps.at(s) is verdict, (rule.rule, rule.part, s)
            seen.add((rule.rule, verdict, pieces.taken_by(pieces.members[0], s)))
            assert pieces.taken_by(pieces.members[0], s) == pieces.taken(s, pieces.members[:1])

    assert len(rules) == 6
    assert {taken for _, _, taken in seen} >= {None, 4.0, 5.0}
    assert len({verdict for _, verdict, _ in seen}) == 3

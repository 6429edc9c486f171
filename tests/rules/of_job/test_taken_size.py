"""The size that hardware has: followed beforehand over all scales, it is what its bores say one by one."""

from __future__ import annotations

from planner.plan import prepare
from planner.rules.answers_over_scale import steps_of
from planner.rules.of_job.one_size import OneSize
from planner.rules.of_job.taken_size import Member, Pieces
from tests.conftest import TODAY, MakeJob
from tests.rules.fit.bores.test_bore_loose import _case as loose_bore
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


def test_of_two_sizes_that_a_drill_makes_room_for_the_nearest_is_taken() -> None:
    """Printed 3.8 mm, with 6 mm beside: M4 goes in once it is 4.1, M5 once it is 5.1; it takes the M4."""
    case = loose_bore(4.0, 6.0).case

    assert Pieces(members=(Member(of=case),), diameters_mm=(4.0, 5.0)).taken(1.0, ()) == 4.0

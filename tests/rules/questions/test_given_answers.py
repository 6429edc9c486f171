"""Few rounds of answers show every answer, and every combination of those that meet."""

from __future__ import annotations

from itertools import combinations, product

from hypothesis import given
from hypothesis import strategies as st

from planner.assembly import Doubt
from planner.job import Changes
from planner.rules.questions.given_answers import COMBINATIONS_MOST, Answer, Answers, apart, combined, rounds


def _asked(numbers: list[int]) -> list[Answers]:
    """Return doubts with so many answers each."""
    return [
        Answers(
            doubt=Doubt(id=f"d{k}", text="?", options=(), default="", features=()),
            answers=tuple(Answer(name=str(c), text=str(c), changes=Changes(pairs=())) for c in range(n)),
        )
        for k, n in enumerate(numbers)
    ]


SETS = st.lists(st.frozensets(st.integers(0, 5), min_size=1, max_size=3), min_size=1, max_size=6)
NUMBERS = st.lists(st.integers(2, 5), min_size=6, max_size=6)


@given(SETS, NUMBERS)
def test_doubts_that_meet_are_seen_in_every_combination(sets: list[frozenset[int]], numbers: list[int]) -> None:
    """Each combination of the answers to a set is tried, unless there are too many to try."""
    tries = combined(_asked(numbers), sets)

    for one in sets:
        seen = {tuple(dict(given)[n] for n in sorted(one)) for given in tries[one]}
        every = set(product(*(range(numbers[n]) for n in sorted(one))))
        assert seen == every or (not seen and len(every) <= COMBINATIONS_MOST * 5)


@given(SETS, NUMBERS)
def test_doubts_that_meet_are_never_answered_in_one_round(sets: list[frozenset[int]], numbers: list[int]) -> None:
    """Every answer is given in exactly one round; two doubts of a set never share one."""
    turns, told = apart(sets), rounds(_asked(numbers), sets)

    assert all(turns[a] != turns[b] for one in sets for a, b in combinations(one, 2))
    assert sorted(pair for given in told for pair in given) == sorted((n, c) for n in turns for c in range(numbers[n]))

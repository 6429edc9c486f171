"""What a remedy takes, in words."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.output.words.remedy_words import price_words
from planner.remedy import Costs, Remedy
from tests.conftest import MakeJob
from tests.remedy.devices import PART
from tests.shapes import cuboid


@pytest.mark.parametrize(
    ("costs", "words"),
    [
        (Costs(minutes_min=12.0, money=0.32), "12 min, 0.32 EUR, then go"),
        (Costs(minutes_min=0.0, money=0.0), "then go"),
        (Costs(minutes_min=0.0, money=None), "price not known, then go"),
    ],
)
def test_minutes_money_and_the_verdict_that_is_left(costs: Costs, words: str, make_job: MakeJob) -> None:
    """What is free is not mentioned; an unknown price is."""
    remedy = Remedy(
        n=1,
        kind="drill",
        text="",
        part="a",
        does=(),
        costs=costs,
        leaves_verdict=Verdict.GO,
        refused=(),
        settles=(),
    )

    assert price_words(remedy, make_job(PART, a=cuboid(10, 10, 10))) == words

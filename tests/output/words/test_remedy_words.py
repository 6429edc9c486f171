"""What a remedy takes, in words."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.output.words.remedy_words import price_words, remedy_lines
from planner.plan import proved_remedies
from planner.remedy import Costs, Remedies, Remedy
from tests.conftest import MakeJob
from tests.remedy.devices import PART, pinned
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


def test_each_remedy_has_its_number_its_price_and_what_failed_before_it(make_job: MakeJob) -> None:
    """A thinner pin where drilling would leave too little, in 80 columns; nothing is said where nothing was found."""
    ready = pinned(make_job, 5.0, 4.6, y_mm=(3.75,))
    lines = remedy_lines(proved_remedies(ready), ready.job)
    text = " ".join(" ".join(lines).split())

    assert remedy_lines(Remedies(), ready.job) == []
    assert max(len(line) for line in lines) <= 80
    assert "1 take 4 mm dowel-pin for pin instead of 5 mm (0.30 EUR, then go)" in text
    assert "1.35 mm is needed" in text

"""What is missing for a release: its kind in the reader's language, and what is known in English below."""

from __future__ import annotations

import pytest

from planner.output.record.record import ROLES, Lift
from planner.output.record.release import Answered, Missing
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, tongue_of
from planner.output.words.missing_words import answered_words, missing_words

KINDS = ("plan", "same device", "test day", "measures", "trial: load", "lot: petg green", "measure: cuff")


@pytest.mark.parametrize("item", [*KINDS, *(f"role: {role}" for role in ROLES)])
def test_every_item_of_a_release_has_its_words(item: str) -> None:
    """All kinds that a release knows: German first, the rule's own English below; in English that alone."""
    one = Missing(item=item, what="it is missing", todo="bring it")
    own, english = missing_words(one, tongue_of("de")).split(ENGLISH_BELOW)

    assert english == missing_words(one, ENGLISH) == "it is missing: bring it"
    assert own
    assert own != english
    assert item.partition(": ")[2] in own or item.startswith("role")


def test_an_exception_names_who_answers_for_it() -> None:
    """Role and reason stand as they were written."""
    missing = Missing(item="trial: load", what="load was not tested", todo="")
    one = Answered(missing=missing, lift=Lift(item="trial: load", role="chapter lead", reason="weighed by hand"))

    assert answered_words(one, ENGLISH) == "load was not tested. Approved by the chapter lead: weighed by hand"
    assert "Verantwortet von: chapter lead. Grund: weighed by hand" in answered_words(one, tongue_of("de"))

"""Duties by name and form, against tables written by hand before."""

from __future__ import annotations

import pytest

from planner.assembly.doubts.duty_form import duty_named, role_of
from planner.job import Duty
from tests.assembly.by_hand.truths import DEVICES, scene, told

PARTS = [(name, part) for name in DEVICES for part in told(name)["duty"]]


@pytest.mark.parametrize(
    ("name", "duty"),
    [("left-cuff_v2", "shell"), ("front cover", "cover"), ("lock-pins", "pin"), ("spine", None), ("grip pad", "soft")],
)
def test_the_last_word_of_a_name_tells_its_duty(name: str, duty: Duty | None) -> None:
    """Words that say which one, and plurals, do not matter; nothing is told where no word is known."""
    assert duty_named(name) == duty


@pytest.mark.parametrize(("name", "part"), PARTS)
def test_every_part_is_taken_for_what_a_person_accepts(name: str, part: str) -> None:
    """The likeliest duty is the table's best, or one that it accepts beside it."""
    truth = told(name)["duty"][part]

    assert role_of(part, scene(name)[1][part]).duty in (truth["best"], *truth["also"])


def test_shares_of_duties_are_as_often_right_as_they_say() -> None:
    """Over all parts the mean share of the default lies within 0.15 of how often it is the best answer."""
    roles = [(role_of(part, scene(name)[1][part]), told(name)["duty"][part]["best"]) for name, part in PARTS]
    right = sum(role.duty == best for role, best in roles) / len(roles)

    assert sum(role.shares[role.duty] for role, _ in roles) / len(roles) == pytest.approx(right, abs=0.15)

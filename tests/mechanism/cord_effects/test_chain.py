"""Joints of a chain of arms, and what each of them carries."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from planner.mechanism.cord_effects.chain import beyond_each
from planner.mechanism.judging.missing_facts import ask_of
from tests.mechanism.force.together.straight_finger import Line, finger_moves
from tests.mechanism.invented import chains


def test_each_joint_of_a_chain_carries_all_that_lies_beyond_it() -> None:
    """Of three arms on a base, from the tip back: the middle ones carry, too (only the last joint's load was told)."""
    device = next(one for one in chains() if one.name == "3 arms 6.0 free")
    told = [(stands, set(beyond)) for _, stands, beyond in beyond_each(device.mechanism(), "arm2")]

    assert told == [
        ("arm1", {"arm2"}),
        ("arm0", {"arm1", "arm2"}),
        ("base", {"arm0", "arm1", "arm2"}),
    ]


@dataclass(frozen=True, kw_only=True)
class _Led(Line):
    """A cord on a way of its own."""

    way: tuple[str, ...]

    def path(self) -> list[str]:
        """Return that way."""
        return list(self.way)


BESIDE = ("one:[25, -8, 0]", "two:[35, -8, 0]")


@pytest.mark.parametrize(
    ("way", "drives", "told"),
    [
        (BESIDE, "three", "cord 0 begins on one, which base to one moves"),
        (("base:[0, 0, 0]", *BESIDE), "three", ""),
        (
            ("base:[-5, -8, 0]", "two:[35, -8, 0]", "one:[25, -8, 0]"),
            "one",
            "cord 0 passes two, which one to two moves",
        ),
        (("base:[-5, -8, 0]", "two:[30, 0, 0]", "one:[25, -8, 0]"), "one", ""),
    ],
)
def test_a_cord_that_turns_what_it_is_not_asked_about_is_held(
    tmp_path: Path, way: tuple[str, ...], drives: str, told: str
) -> None:
    """Drawn from nobody knows where on a segment that turns, or led over one beyond: not where it runs through the axis.

    Of an eye on an axis the lever is none (statics), so nothing turns there.
    """
    (move,) = finger_moves(tmp_path, [_Led(levers_mm={}, drives=drives, grip_x_mm=30.0, way=way)])

    assert move.travel_mm is not None
    assert move.pull_unknown.startswith(told)
    assert bool(move.pull_unknown) == bool(told)
    assert not told or ask_of(move.pull_unknown) == "What turns on the bench when that cord is drawn?"

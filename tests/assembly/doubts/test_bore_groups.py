"""Bores in groups of one size: steps belong to their bore, forks are told, what was stated is left out."""

from __future__ import annotations

from planner.assembly.doubts.bore_groups import bore_groups
from tests.assembly.by_hand.truths import scene


def test_sizes_within_the_matching_share_are_one_group() -> None:
    """The linkage's bores of 3.0 and 3.1 mm are one group; 2.5 mm through and blind are two."""
    groups = bore_groups(*scene("linkage"))

    assert [group.id for group in groups][:3] == ["bores-2.5-through", "bores-2.5-blind", "bores-3.1-through"]
    assert {round(bore.drawn_diameter_mm, 1) for _, bore in groups[2].members} == {3.0, 3.1}


def test_wider_steps_go_with_the_bore_below_them() -> None:
    """The seats of 9 mm over the linkage's bores of 5 mm are no group of their own."""
    five = next(group for group in bore_groups(*scene("linkage")) if group.size_mm == 5.0)

    assert {round(bore.drawn_diameter_mm, 1) for _, bore in five.seats} == {9.0}
    assert len(five.seats) == len(five.members) == 6


def test_a_fork_with_its_lever_is_told() -> None:
    """The Heron's deck holds the jaw between two bores of 5.3 mm: four of the five bores lie in forks."""
    pivot = next(group for group in bore_groups(*scene("heron")) if group.size_mm == 5.3)

    assert pivot.lever
    assert pivot.forked_share == 0.8

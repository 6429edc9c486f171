"""Doubts about duties: one a kind of part, the rarest kinds together."""

from __future__ import annotations

from planner.assembly.doubts.duty_doubts import duty_doubts
from tests.assembly.by_hand.truths import scene


def test_parts_of_one_kind_are_one_question() -> None:
    """The linkage's four plates are asked about together, each option an edit of all four."""
    job, surveys = scene("linkage")
    plates = next(doubt for doubt in duty_doubts(job, surveys, 3) if doubt.id == "duty-plates")

    assert len(plates.features) == 4
    assert all(len(option.edits) == 4 for option in plates.options)


def test_rare_kinds_are_asked_together() -> None:
    """Of the Heron's six kinds three questions are made; the last one keeps each guess, or says that all carry load."""
    job, surveys = scene("heron")
    doubts = duty_doubts(job, surveys, 3)
    other = doubts[-1]

    assert [doubt.id for doubt in doubts] == ["duty-bodies", "duty-covers", "duty-others"]
    assert {edit.name: edit.put["duty"] for edit in other.option("as-guessed").edits}["lock-pin"] == "pin"
    assert {edit.put["duty"] for edit in other.option("load").edits} == {"load"}

"""Doubts about duties: one a kind of part, the rarest kinds together."""

from __future__ import annotations

from dataclasses import replace

from planner.assembly.doubts.duty_doubts import PLAIN, duty_doubts
from tests.assembly.by_hand.truths import scene


def test_parts_of_one_kind_are_one_question() -> None:
    """The linkage's four plates are asked about together, each option an edit of all four."""
    job, surveys = scene("linkage")
    plates = next(doubt for doubt in duty_doubts(job, surveys, 3) if doubt.id == "duty-plates")

    assert len(plates.features) == 4
    assert all(len(option.edits) == 4 for option in plates.options)


def test_rare_kinds_are_asked_together() -> None:
    """Of the Heron's six kinds three questions are made; the last one keeps each guess, or says that all carry load, or cover."""
    job, surveys = scene("heron")
    doubts = duty_doubts(job, surveys, 3)
    other = doubts[-1]

    assert [doubt.id for doubt in doubts] == ["duty-bodies", "duty-covers", "duty-others"]
    assert {edit.name: edit.put["duty"] for edit in other.option("as-guessed").edits}["lock-pin"] == "pin"
    assert {edit.put["duty"] for edit in other.option("load").edits} == {"load"}


def test_no_duty_that_asks_for_thick_walls_is_asked_about_alone() -> None:
    """A thin plate whose name says axle, and parts of rare kinds: each may only cover, so that no wall ends a guess."""
    for device in ("heron", "linkage", "shelf"):
        job, surveys = scene(device)
        for most in (1, 2, 3, 8):
            for doubt in duty_doubts(job, surveys, most):
                duties = [{edit.put["duty"] for edit in option.edits} for option in doubt.options]
                assert any(one <= set(PLAIN) for one in duties)
    named = dict(zip(("axle", "wheel_axle", "rod"), surveys.values(), strict=False))
    parts = tuple(replace(job.parts[0], name=name, duty=None) for name in named)
    (doubt,) = duty_doubts(replace(job, parts=parts), named, 3)
    assert {"pin", "load", "cover"} <= {option.name for option in doubt.options}

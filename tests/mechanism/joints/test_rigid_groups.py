"""Bodies that move as one: fixed copies, and copies that two axes hold."""

from __future__ import annotations

from dataclasses import replace

from planner.mechanism.joints.rigid_groups import rigid_groups
from tests.mechanism.invented import turns

COPIES = ("base", "lid", "arm", "pad")
FIXED = replace(turns("base", "lid", 0.0, 0.0), kind="fixed")
PRESSED = replace(turns("arm", "pad", 9.0, 9.0), kind="fixed", name="pad")


def test_fixed_copies_are_one_body() -> None:
    """Lid and pad go with what they are fixed to; one joint is left."""
    found = rigid_groups(COPIES, (FIXED, PRESSED, turns("base", "arm", 0.0, 0.0)))

    assert set(found.groups) == {frozenset({"base", "lid"}), frozenset({"arm", "pad"})}
    assert [joint.name for joint in found.joints] == ["base to arm"]
    assert found.of("pad") == found.of("arm")


def test_two_hinges_on_one_line_are_one_joint() -> None:
    """A second pin on the same axis, even through another copy of the body, adds nothing."""
    second = replace(turns("lid", "arm", 0.0, 0.0), at_mm=(0.0, 0.0, 30.0))
    found = rigid_groups(COPIES, (FIXED, PRESSED, turns("base", "arm", 0.0, 0.0), second))

    assert [joint.name for joint in found.joints] == ["base to arm"]
    assert [joint.name for joint in found.spare] == ["lid to arm"]
    assert found.notes == ()


def test_two_parallel_lines_hold_fast() -> None:
    """Turning about two lines at once is not possible: the bodies are one, and a note says why."""
    found = rigid_groups(COPIES, (FIXED, PRESSED, turns("base", "arm", 0.0, 0.0), turns("lid", "pad", 20.0, 0.0)))

    assert found.groups == (frozenset(COPIES),)
    assert found.joints == ()
    assert found.notes == ("base to arm and lid to pad hold the same bodies on two lines: fixed",)


def test_two_pins_in_slots_that_run_different_ways_leave_one_freedom() -> None:
    """Both are kept, as in a trammel; slots that run alike are one slide, and a third pin holds the bodies fast."""
    one = replace(turns("base", "arm", 0.0, 0.0), kind="slides", axis=(1.0, 0.0, 0.0), about=(0.0, 0.0, 1.0))
    other = replace(one, name="other", axis=(0.0, 1.0, 0.0))
    third = replace(one, name="third", axis=(0.6, 0.8, 0.0))

    assert rigid_groups(COPIES, (one, other)).joints == (one, other)
    assert rigid_groups(COPIES, (one, replace(other, axis=one.axis))).joints == (one,)
    assert not rigid_groups(COPIES, (one, other, third)).joints

"""Joints of a chain of arms, and what each of them carries."""

from __future__ import annotations

from planner.mechanism.cord_effects.chain import beyond_each
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

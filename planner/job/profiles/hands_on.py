"""How long hands take for what follows printing, from the shipped profile."""

from __future__ import annotations

from dataclasses import dataclass

from planner.errors import ProfileError
from planner.job.file.table import read_toml
from planner.job.profiles.shipped import shipped
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class HandsOn:
    """Minutes for one of each: copy with support, opening to drill, piece of hardware, pad, strap, cord."""

    coupon_min: Sourced
    """Cooling, measuring, and writing the readings down."""
    support_min: Sourced
    drill_min: Sourced
    hardware_min: Sourced
    padding_min: Sourced
    strap_min: Sourced
    cord_min: Sourced
    settle_min: Sourced
    """A wait: cords settle before they are tensioned again."""
    retension_min: Sourced
    test_min: Sourced
    fitting_min: Sourced


def read_hands_on() -> HandsOn:
    """Read the shipped times."""
    table = read_toml(shipped("profiles") / "hands_on.toml", ProfileError)
    found = HandsOn(**{key: table.sourced(key, high=100_000.0) for key in HandsOn.__dataclass_fields__})
    table.done()
    return found

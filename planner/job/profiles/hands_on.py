"""How long the work after printing takes, from the shipped profile."""

from __future__ import annotations

from dataclasses import dataclass

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped
from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class HandsOn:
    """Minutes of hands-on work after printing, for one of each."""

    coupon_min: Sourced
    """The coupon: cooling, measuring, writing the readings down."""
    support_min: Sourced
    """Taking the support off one copy."""
    drill_min: Sourced
    """One opening to drill or ream."""
    hardware_min: Sourced
    """Fitting one piece of hardware."""
    padding_min: Sourced
    """Cutting and sticking one pad."""
    strap_min: Sourced
    """Fitting one strap."""
    cord_min: Sourced
    """Threading, knotting and tensioning one cord."""
    settle_min: Sourced
    """A wait: cords settle before they are tensioned again."""
    retension_min: Sourced
    """Tensioning one cord again."""
    test_min: Sourced
    """The function test."""
    fitting_min: Sourced
    """The fitting, with the recipient."""


def read_hands_on() -> HandsOn:
    """Read the shipped times."""
    table = read_toml(shipped("profiles") / "hands_on.toml", ProfileError)
    found = HandsOn(**{key: table.sourced(key, high=100_000.0) for key in HandsOn.__dataclass_fields__})
    table.done()
    return found

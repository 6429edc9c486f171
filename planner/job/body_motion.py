"""Published ranges of motion of the body's joints: only to catch a slip in a drive's range, never to judge a limb."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped

SPREADS = 2.0
"""So many standard deviations above the mean lie nearly all people (97.7 % of a normal distribution)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyMotion:
    """How far one joint of the body goes: flexion and extension, in degrees from the straight joint."""

    name: str
    about: str
    """Which movements are meant."""
    mean_deg: tuple[float, float]
    """Mean of adults without a difference there."""
    spread_deg: tuple[float, float]
    """Standard deviation."""
    daily_deg: tuple[float, float]
    """What daily work uses; a negative second angle begins beyond straight."""
    source: str
    """Where mean and spread are from."""
    daily_source: str
    """Where the range of daily work is from."""

    @property
    def most_deg(self) -> tuple[float, float]:
        """What hardly anybody exceeds."""
        (flexion, extension), (one, other) = self.mean_deg, self.spread_deg
        return flexion + SPREADS * one, extension + SPREADS * other


@cache
def read_motions() -> dict[str, BodyMotion]:
    """Read the shipped ranges of motion, by the joint's name."""
    table = read_toml(shipped("profiles") / "motion.toml", ProfileError)
    found = {}
    for name in table.raw:
        one = table.table(name)
        pairs = {key: one.numbers(key, 2, low=-180.0, high=180.0) for key in ("mean_deg", "spread_deg", "daily_deg")}
        found[name] = BodyMotion(
            name=name,
            about=one.text("about"),
            mean_deg=(pairs["mean_deg"][0], pairs["mean_deg"][1]),
            spread_deg=(pairs["spread_deg"][0], pairs["spread_deg"][1]),
            daily_deg=(pairs["daily_deg"][0], pairs["daily_deg"][1]),
            source=one.text("source"),
            daily_source=one.text("daily_source"),
        )
        one.done()
    return found

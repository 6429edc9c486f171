"""The limits that rules compare with: data under ``profiles/limits`` and ``profiles/rules``, never in code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.sourced import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Numbers that rules compare with. ``_lines`` are multiples of the line width.

    ``own`` holds the numbers that one rule alone uses, by the rule's name and the number's key.
    """

    name: str
    wall_plain_lines: Sourced
    """Shell, cover, soft: 2."""
    wall_load_lines: Sourced
    """Load and pin: 3."""
    unlaid_percent: Sourced
    """Share of a part that lines may miss without a caution."""
    wall_between_low_lines: Sourced
    wall_between_high_lines: Sourced
    running_turning_mm: Sourced
    running_sliding_mm: Sourced
    running_held_mm: Sourced
    play_turning_mm: Sourced
    play_sliding_mm: Sourced
    play_held_mm: Sourced
    pilot_low_share: Sourced
    pilot_high_share: Sourced
    bush_wall_mm: Sourced
    oval_percent: Sourced
    seat_clearance_mm: Sourced
    gap_loose_mm: Sourced
    channel_share: Sourced
    slot_clearance_mm: Sourced
    strength_ratio: Sourced
    strength_share: Sourced
    """Share of the strength that a joint's stress may reach without a caution."""
    small_age_years: Sourced
    cord_share: Sourced
    """Share of the measured pull that a cord force may take, 0.2."""
    cord_friction: Sourced
    measures_apart_percent: Sourced
    stale_child_days: Sourced
    stale_adult_days: Sourced
    child_age_years: Sourced
    spool_reserve: Sourced
    bore_match_percent: Sourced
    """How near a bore's drawn diameter must lie to the one named, 4 %."""
    unit_least_mm: Sourced
    """A device whose largest part is smaller than this is probably not in mm."""
    unit_most_mm: Sourced
    own: Mapping[str, Mapping[str, Sourced]] = field(hash=False)

    def of(self, rule: str, key: str) -> Sourced:
        """Return a number that one rule alone uses, as ``profiles/rules`` or the job's own limits file gives it."""
        return self.own[rule][key]

"""The limits that rules compare with: data under ``profiles/limits`` and ``profiles/rules``, never in code."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from planner.job.file.table import Table
from planner.sourced import Sourced

TIMES_MOST = 10.0
"""So far either way a person's own limit may lie from the shipped one: farther is a slip, or puts the rule to sleep; no
source."""
NEVER_NONE = ("_ratio", "_share", "_friction", "_reserve", "_years", "_lines", "_nozzles")
"""A limit that multiplies, or is an age, never is 0: its rule would ask nothing, or too much."""
MAY_BE_NONE = ("blemish_", "lip_")
"""But for these, which let small faults pass: with 0 none does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """Numbers that rules compare with. ``_lines`` are multiples of the line width."""

    name: str
    wall_plain_lines: Sourced
    """Least wall of parts of duty shell, cover or soft, in line widths."""
    wall_load_lines: Sourced
    """Least wall of parts of duty load or pin, in line widths."""
    floor_plain_layers: Sourced
    """Least floor of these that lies in the chosen pose, in layers."""
    floor_load_layers: Sourced
    """Least floor of parts of duty load or pin that lies, in layers."""
    floor_least_mm: Sourced
    """No floor is thinner than this, however thin its layers are."""
    unlaid_percent: Sourced
    """Share of a part's volume that no line may reach without a finding."""
    blemish_lines: Sourced
    """A thin place shorter and narrower than this, in line widths, may be a blemish."""
    blemish_share: Sourced
    """A blemish takes less than this share of the part's section."""
    lip_lines: Sourced
    """A thin place of one line at least, shorter and narrower than this many lines, may be a lip."""
    lip_share: Sourced
    """A lip takes less than this share of the part's section."""
    wall_between_low_lines: Sourced
    """Walls from here, in line widths, print as one thick line or two squeezed ones: a note."""
    wall_between_high_lines: Sourced
    """Walls up to here get that note."""
    running_turning_mm: Sourced
    """Least play on diameter of hardware that turns."""
    running_sliding_mm: Sourced
    """Least play on diameter of hardware that slides."""
    running_held_mm: Sourced
    """Least play on diameter of hardware that is held."""
    play_turning_mm: Sourced
    """Most play on diameter of hardware that turns."""
    play_sliding_mm: Sourced
    """Most play on diameter of hardware that slides."""
    play_held_mm: Sourced
    """Most play on diameter of hardware that is held."""
    pilot_least_thread_share: Sourced
    """Least share of a screw's thread that a pilot bore must leave: with less, the thread strips."""
    pilot_drill_thread_share: Sourced
    """Share of the thread that a pilot is drilled for where it is too narrow."""
    pilot_most_thread_share: Sourced
    """Most share of the thread: a narrower pilot only drives harder and splits the part."""
    boss_ratio: Sourced
    """Least outside of the boss round a pilot, as a multiple of the screw's diameter."""
    bush_wall_mm: Sourced
    """Least wall of a bush that fills a bore that is too wide."""
    oval_percent: Sourced
    """Uneven scale across a bore that still counts as round."""
    seat_clearance_mm: Sourced
    """Room in the seat of a nut, washer or insert."""
    gap_loose_mm: Sourced
    """A running gap wider than this on each side gets a note."""
    channel_share: Sourced
    """Least channel, as a multiple of its cord."""
    slot_clearance_mm: Sourced
    """Room in a slot beyond its webbing."""
    slot_file_mm: Sourced
    """By how much at most a printed slot is filed wider, both walls together."""
    strength_ratio: Sourced
    """Strength lost against the size as drawn, as a ratio, from which a caution is given."""
    creep_share: Sourced
    """Of a short test's strength, what is left after 1000 h under a load that stays on."""
    fatigue_share: Sourced
    """Of it, what is left after a million loads."""
    strength_share: Sourced
    """Share of the strength that a joint's stress may reach without a caution."""
    small_age_years: Sourced
    """Under this age small parts are a hold."""
    cord_share: Sourced
    """Share of the measured pull that a cord may ask for."""
    cord_friction: Sourced
    """Friction coefficient of cord on a printed guide."""
    pin_friction: Sourced
    """Friction coefficient of a printed part on its pin or axle."""
    measures_apart_percent: Sourced
    """Measures that ask for scales further apart than this are a hold."""
    stale_child_days: Sourced
    """A child's measure older than this is a hold."""
    stale_adult_days: Sourced
    """An adult's measure older than this is a hold."""
    child_age_years: Sourced
    """Under this age a person counts as a child."""
    spool_reserve: Sourced
    """What a spool must hold, as a multiple of what is needed."""
    bore_match_percent: Sourced
    """How near a bore's drawn diameter must lie to the one that is named."""
    unit_least_mm: Sourced
    """A device whose largest part is smaller than this is probably not in mm."""
    unit_most_mm: Sourced
    """A device whose largest part is larger than this is probably not in mm."""
    own: Mapping[str, Mapping[str, Sourced]] = field(hash=False)
    """Numbers that one rule alone uses, by the rule's name and the number's key."""

    def of(self, rule: str, key: str) -> Sourced:
        """Return a number that one rule alone uses, as ``profiles/rules`` or the job's own limits file gives it."""
        return self.own[rule][key]


def own_limit(table: Table, key: str, usual: Sourced) -> Sourced:
    """Return a person's own limit, which must lie near the shipped one; a share of something is 1 at most."""
    found = table.sourced(key)
    low, high = usual.low / TIMES_MOST, (usual.high or 0.1) * TIMES_MOST
    if key.endswith("_share") and usual.value <= 1.0:
        high = min(high, 1.0)
    none = key.startswith(MAY_BE_NONE) or not key.endswith(NEVER_NONE)
    for value in (found.value, found.low, found.high):
        if not (low <= value <= high or (none and value == 0.0)):
            todo = f"{'0, or ' if none and low else ''}from {low:.4g} to {high:.4g} can be"
            table.refuse(key, f"{value:g} is no limit beside the usual {usual.value:g}", todo)
    return found

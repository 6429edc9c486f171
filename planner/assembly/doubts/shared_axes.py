"""Bores of two sizes that one piece goes through: in one part it is held, or cuts its thread; in the next it has play.

A pivot's bore is often drawn wider in the lever than in the fork, a screw's wider in the lid than in the box below it.
Asked about by size alone, they would be two pieces.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.assembly.bore_axes import runs_of
from planner.assembly.claim import same_size
from planner.job import HardwareTables, Job
from planner.survey import Bore

PILOT_SHARES = (0.76, 0.9)
"""A pilot for plastics, over the screw's diameter; common practice, no source."""
NEAR_MM = 0.1
TWO = 2
PIN_PLAY_MM = 0.6
"""A pin has no more play than this in a bore drawn for it; common practice, no source."""
Member = tuple[str, Bore]
"""A part's name, and a bore of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedAxes:
    """Bores of one size, and wider ones of other parts that follow them on their axes; no part has both."""

    narrow: tuple[Member, ...]
    wide: tuple[Member, ...]

    def takes(self, other: SharedAxes) -> bool:
        """Return whether others are of the same two sizes, and no part would have both."""
        narrow = {name for name, _ in (*self.narrow, *other.narrow)}
        apart = narrow.isdisjoint(name for name, _ in (*self.wide, *other.wide))
        return apart and _size(self.narrow) == _size(other.narrow) and _size(self.wide) == _size(other.wide)


def shared_axes(free: Sequence[Member], job: Job, apart_most_mm: float) -> list[SharedAxes]:
    """Return the bores of two sizes that one stock shank goes through, those of the same sizes together.

    Parameters
    ----------
    free
        The bores that nobody has spoken of, in the frame in which the parts are drawn in place.
    apart_most_mm
        No more room than this lies between two bores that follow each other.
    """
    found: list[SharedAxes] = []
    for run in runs_of(free, apart_most_mm):
        sizes = sorted({_of(bore) for _, bore in run})
        if len(sizes) != TWO or not one_shank(sizes[0], sizes[1], job.tables):
            continue
        if any(same_size(bore, sizes[:1], job.limits) for _, bore in run if _of(bore) == sizes[1]):
            continue  # one drawn diameter finds both
        narrow, wide = (tuple(one for one in run if _of(one[1]) == size) for size in sizes)
        mine = SharedAxes(narrow=narrow, wide=wide)
        if not mine.takes(mine):
            continue
        same = next((one for one in found if one.takes(mine)), None)
        if same is None:
            found.append(mine)
        else:
            both = SharedAxes(narrow=(*same.narrow, *narrow), wide=(*same.wide, *wide))
            found[found.index(same)] = both
    return found


def one_shank(narrow_mm: float, wide_mm: float, tables: HardwareTables) -> bool:
    """Return whether a stock screw or pin goes through bores of both sizes, as drawn.

    Bores through which a screw passes are between the fine and the coarse series of ISO 273.
    """
    for screw in tables.machine_screws:
        d, fine, coarse = screw.diameter_mm.value, screw.bores_mm[0].value, screw.bores_mm[2].value
        passes = fine - NEAR_MM <= wide_mm <= coarse + NEAR_MM
        stands = d - NEAR_MM <= narrow_mm <= coarse + NEAR_MM
        if passes and (stands or PILOT_SHARES[0] <= narrow_mm / d <= PILOT_SHARES[1]):
            return True
    return any(
        narrow_mm - pin.diameter_mm.value >= -NEAR_MM and wide_mm - pin.diameter_mm.value <= PIN_PLAY_MM
        for pin in tables.dowel_pins
    )


def _of(bore: Bore) -> float:
    """Return a bore's size in tenths of a millimetre, which all that is drawn alike has in common."""
    return round(bore.drawn_diameter_mm, 1)


def _size(members: Sequence[Member]) -> float:
    """Return the size that bores have in common."""
    return _of(members[0][1])

"""Which printed pegs go through what is bought with a bore: as drawn in its seat, or for a bearing by size alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planner.assembly.pegs.pegs_in_bores import TIGHTER_MOST_MM, WIDER_MOST_MM, lies_in, stated_joint
from planner.job import Hardware, Job
from planner.survey import Bore, Peg, Survey

THIN_SHARE = 0.5
"""What is drawn in a seat and thinner than this share of the bore there is not meant for it; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PegInRing:
    """A peg of a part that may go through hardware in a seat of another part.

    ``in_place`` is True where it is drawn there. ``sure`` is True where it has the size as well, or where a
    ``[[joint]]`` is stated between the two parts.
    """

    part: str
    seat: Bore
    hardware: Hardware
    hole_mm: float
    peg_part: str
    peg: Peg
    in_place: bool
    sure: bool


def peg_in_ring(
    job: Job, surveys: Mapping[str, Survey], part: str, seat: Bore, hardware: Hardware, hole_mm: float
) -> PegInRing | None:
    """Return the likeliest peg for the bore of what sits in a seat; None where no peg is drawn there or fits."""
    found = list(_for_ring(job, surveys, part, seat, hardware, hole_mm))
    return min(
        found, key=lambda one: (not one.in_place, not one.sure, abs(one.peg.diameter_mm - hole_mm)), default=None
    )


def _for_ring(
    job: Job, surveys: Mapping[str, Survey], part: str, seat: Bore, hardware: Hardware, hole_mm: float
) -> Iterator[PegInRing]:
    """Yield every peg of another part that may go through."""
    for owner in job.parts:
        if owner.name == part and owner.count == 1:
            continue
        joined = stated_joint(job, owner.name, part) is not None
        for peg in surveys[owner.name].pegs:
            in_place = owner.name != part and lies_in(peg, seat)
            like = -WIDER_MOST_MM <= peg.diameter_mm - hole_mm <= TIGHTER_MOST_MM
            within = THIN_SHARE * hole_mm <= peg.diameter_mm < seat.drawn_diameter_mm - TIGHTER_MOST_MM
            if (in_place and within) or (like and hardware.kind == "bearing"):
                yield PegInRing(
                    part=part,
                    seat=seat,
                    hardware=hardware,
                    hole_mm=hole_mm,
                    peg_part=owner.name,
                    peg=peg,
                    in_place=in_place,
                    sure=like and (in_place or joined),
                )

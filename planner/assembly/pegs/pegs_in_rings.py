"""Which printed pegs go through what is bought with a bore: as drawn in its seat, or for a bearing by size alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from planner.assembly.pegs.pegs_in_bores import TIGHTER_MOST_MM, WIDER_MOST_MM, lies_in, stated_joint
from planner.job import Hardware, Job
from planner.survey import Bore, Peg, Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PegInRing:
    """A peg of a part that may go through hardware in a seat of another part.

    It is about as thick as the bore there. ``in_place`` is True where it is drawn there; ``sure`` is True then, or
    where a ``[[joint]]`` is stated between the two parts.
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
    """Yield every peg of another part that may go through: drawn in place, or for a bearing wherever it is drawn.

    Parts that are drawn round their own origins have axes in common by chance, so the size must suit in any case.
    """
    for owner in job.parts:
        if owner.name == part and owner.count == 1:
            continue
        joined = stated_joint(job, owner.name, part) is not None
        for peg in surveys[owner.name].pegs:
            in_place = owner.name != part and lies_in(peg, seat)
            like = -WIDER_MOST_MM <= peg.diameter_mm - hole_mm <= TIGHTER_MOST_MM
            by_size = hardware.kind == "bearing" and (joined or peg.enters)
            if like and (in_place or by_size):
                yield PegInRing(
                    part=part,
                    seat=seat,
                    hardware=hardware,
                    hole_mm=hole_mm,
                    peg_part=owner.name,
                    peg=peg,
                    in_place=in_place,
                    sure=in_place or joined,
                )

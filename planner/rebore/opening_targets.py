"""What every opening with hardware in it should measure at a scale, so that it fits as printed."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from planner.assembly import SEATS, Claim, ends_of, grown
from planner.finding import Vec3
from planner.job import Job
from planner.rules import pockets_of, seat_size, slots_for, undersize_of, ways_of
from planner.survey import Bore, Channel, Slot, Survey

OpeningKind = Literal["bore", "seat", "channel", "slot"]

SHARE = 0.3
"""Where between the least and the largest printed bore the new one is aimed: nearer to tight, it can be reamed."""
OVER_MM = 0.05
"""What has only a least size is cut this much larger."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """One opening of one part at scale, in mm.

    Parameters
    ----------
    feature, hardware
        Its name in the part, and what goes into it.
    before_mm, inside_mm
        As drawn (through the vertices; a slot's length), and inscribed.
    least_mm, most_mm
        Inscribed sizes that fit as printed; None where the hardware's root is in no table.
    target_mm
        The inscribed size to cut.
    pin_mm
        How much of these sizes is a printed pin's thickness, which grows with the device; 0 for what is bought.
    """

    part: str
    feature: str
    hardware: str
    kind: OpeningKind
    opening: Bore | Channel | Slot
    before_mm: float
    inside_mm: float
    least_mm: float | None
    most_mm: float
    target_mm: float
    pin_mm: float = 0.0

    @property
    def fits(self) -> bool:
        """True where it fits as it is."""
        return self.least_mm is not None and self.least_mm <= self.inside_mm <= self.most_mm


def aims_of(
    job: Job, surveys: Mapping[str, Survey], claims: Sequence[Claim], downs: Mapping[str, Vec3], s: Mapping[str, float]
) -> list[Aim]:
    """Return the aim of every claimed opening of the parts in ``s``, which gives each part's factor."""
    aims = [_bore_aim(job, claim, downs[claim.part], s) for claim in claims if claim.part in s]
    aims += _seat_aims(job, surveys, downs, s)
    taken = {(claim.part, claim.bore.id) for claim in claims} | {(a.part, a.feature) for a in aims if a.kind == "seat"}
    aims += _channel_aims(job, surveys, downs, s, taken)
    return aims + _slot_aims(job, surveys, s)


def _bore_aim(job: Job, claim: Claim, down: Vec3, factors: Mapping[str, float]) -> Aim:
    """Return the aim of a bore that hardware goes through."""
    hardware, bore, s = grown(claim.hardware, factors), claim.bore, factors[claim.part]
    ends = ends_of(hardware, claim.fit, job.limits, job.tables)
    undersize = undersize_of(job, bore.axis, down)[0].value
    low, high = (None, 0.0) if ends is None else (ends[0] + undersize, ends[1] + undersize)
    return Aim(
        part=claim.part,
        feature=bore.id,
        hardware=hardware.name,
        kind="bore",
        opening=bore,
        before_mm=bore.drawn_diameter_mm * s,
        inside_mm=bore.diameter_mm * s,
        least_mm=low,
        most_mm=high,
        target_mm=0.0 if low is None else low + SHARE * (high - low),
        pin_mm=hardware.diameter_mm if hardware.printed in factors else 0.0,
    )


def _at_least(
    part: str,
    feature: str,
    hardware: str,
    kind: OpeningKind,
    opening: Bore | Channel | Slot,
    sizes: tuple[float, float],
    least: float,
) -> Aim:
    """Return the aim of an opening that has only a least size; ``sizes`` are as drawn and inscribed, at scale."""
    return Aim(
        part=part,
        feature=feature,
        hardware=hardware,
        kind=kind,
        opening=opening,
        before_mm=sizes[0],
        inside_mm=sizes[1],
        least_mm=least,
        most_mm=float("inf"),
        target_mm=least + OVER_MM,
    )


def _seat_aims(job: Job, surveys: Mapping[str, Survey], downs: Mapping[str, Vec3], s: Mapping[str, float]) -> list[Aim]:
    """Return the aims of all seats."""
    aims = []
    for hardware in (h for h in job.hardware if h.kind in SEATS):
        size = seat_size(job, hardware)
        for part in (part for part in hardware.joins if part in s and size is not None):
            for pocket in pockets_of(job, hardware, surveys[part]):
                assert size is not None
                least = size + job.limits.seat_clearance_mm.value + undersize_of(job, pocket.axis, downs[part])[0].value
                sizes = pocket.drawn_diameter_mm * s[part], pocket.diameter_mm * s[part]
                aims.append(_at_least(part, pocket.id, hardware.name, "seat", pocket, sizes, least))
    return aims


def _channel_aims(
    job: Job,
    surveys: Mapping[str, Survey],
    downs: Mapping[str, Vec3],
    s: Mapping[str, float],
    taken: set[tuple[str, str]],
) -> list[Aim]:
    """Return the aims of all cord channels, straight and curved."""
    aims = []
    for cord in (cord for cord in job.cords if cord.part in s):
        ways, factor = ways_of(job, cord, surveys[cord.part], taken), s[cord.part]
        for bore in ways.bores:
            least = job.limits.channel_share.value * cord.diameter_mm
            least += undersize_of(job, bore.axis, downs[cord.part])[0].value
            sizes = bore.drawn_diameter_mm * factor, bore.diameter_mm * factor
            aims.append(_at_least(cord.part, bore.id, cord.name, "channel", bore, sizes, least))
        for channel in ways.channels:
            least = job.limits.channel_share.value * cord.diameter_mm
            least += undersize_of(job, None, downs[cord.part])[0].value
            sizes = channel.diameter_mm * factor, channel.diameter_mm * factor
            aims.append(_at_least(cord.part, f"channel {cord.name}", cord.name, "channel", channel, sizes, least))
    return aims


def _slot_aims(job: Job, surveys: Mapping[str, Survey], s: Mapping[str, float]) -> list[Aim]:
    """Return the aims of all strap slots."""
    aims = []
    for strap in (strap for strap in job.straps if strap.part in s):
        slots = surveys[strap.part].slots
        for index in slots_for(job, strap, slots)[1]:
            least, size = strap.webbing_mm + job.limits.slot_clearance_mm.value, slots[index].length_mm * s[strap.part]
            feature = f"slot {index + 1}"
            aims.append(_at_least(strap.part, feature, strap.name, "slot", slots[index], (size, size), least))
    return aims

"""Which printed pegs go into which bores that no hardware claims: as drawn in place, or by their sizes alone.

A bore that is open at one side takes only what is drawn in it; one with a flat takes a peg with the same flat, too.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np

from planner.assembly.bore_axes import coaxial
from planner.assembly.claim import stays_open
from planner.assembly.nut_pockets import pockets_on
from planner.job import Job, JointKind, Part
from planner.survey import Bore, Peg, Survey

WIDER_MOST_MM, WIDER_MOST_SHARE = 0.6, 0.06
"""A bore drawn for a peg is no wider than it by more than this, or by this share; common practice, no source."""
TIGHTER_MOST_MM = 0.25
"""A press fit is drawn no tighter than this; common practice, no source."""
WHOLE_DEG, HALF_DEG = 345.0, 185.0
"""From here on round a bore is whole, and what is in one cannot leave it sideways."""
LIKE_DEG = 20.0
"""A flat in a bore is that of a shaft where so much is missing of both, within this."""
INSIDE_LEAST_SHARE = 0.2
"""In place, a peg and a bore share so much of the shorter one's length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PegInBore:
    """A peg of one part that may go into a bore of another.

    ``in_place`` is True where it is drawn there; ``how`` is how a ``[[joint]]`` of the job says that the two parts
    hold together or move, None where nobody has stated it.
    """

    part: str
    bore: Bore
    peg_part: str
    peg: Peg
    in_place: bool
    how: JointKind | None
    fast: bool = False
    """Whether neither part can turn: another peg goes between them off its axis, or flats lie on flats."""
    named: bool = False
    """Whether the job says that it goes into this bore: it is printed as the hardware that does."""
    tighter_mm: float = 0.0
    """How much less room than round it a peg has across its flat, as drawn; 0 where it has none."""

    @property
    def keyed(self) -> bool:
        """Whether the same flat is in both, which tells that they belong together wherever they are drawn."""
        return _flat_on_flat(self.peg, self.bore)


def pegs_in_bores(
    job: Job, surveys: Mapping[str, Survey], taken: Collection[tuple[str, str]]
) -> dict[tuple[str, str], PegInBore]:
    """Return the likeliest peg for every bore, by part and bore, that may be there for one.

    ``taken`` are the bores that something else speaks for. One that is drawn in place comes before all others, then
    the one that fits closest.
    """
    pinned = {hardware.printed for hardware in job.hardware if hardware.printed}
    owners = [part for part in job.parts if part.name not in pinned]
    found: dict[tuple[str, str], PegInBore] = {}
    for part in job.parts:
        survey = surveys[part.name]
        nuts = {pocket.id for bore in survey.bores for pocket in pockets_on(survey, bore)}
        for bore in () if part.ignore_bores else (*survey.bores, *survey.possible_bores):
            if (part.name, bore.id) in taken or stays_open(job, part.name, bore):
                continue
            here = list(_for_bore(job, part, bore, owners, surveys))
            here = [one for one in here if _may_go_in(one, nut=bore.id in nuts)]
            if here:
                found[part.name, bore.id] = min(here, key=lambda one: (not one.in_place, _room_mm(bore, one.peg)))
    placed = [one for one in found.values() if one.in_place]
    return {
        key: replace(one, fast=one.fast or any(_hold_fast(one, other) for other in placed))
        for key, one in found.items()
    }


def _may_go_in(one: PegInBore, *, nut: bool) -> bool:
    """Return whether a peg may go into a bore of its size: into a nut's pocket, or a clip, only as drawn in place."""
    if nut and not one.in_place:
        return False  # its size tells of a nut, not of a shaft
    around_deg = one.bore.coverage_deg
    return around_deg >= WHOLE_DEG or (around_deg > HALF_DEG and (one.in_place or one.keyed))  # a clip, or a flat


def _hold_fast(one: PegInBore, other: PegInBore) -> bool:
    """Return whether two pegs that are drawn in place keep the same two parts from turning on each other."""
    if not one.in_place or {one.part, one.peg_part} != {other.part, other.peg_part}:
        return False
    return not coaxial(one.bore, other.bore)


def _for_bore(
    job: Job, part: Part, bore: Bore, owners: list[Part], surveys: Mapping[str, Survey]
) -> Iterator[PegInBore]:
    """Yield every peg of another part that may go into one bore."""
    for owner in owners:
        if owner.name == part.name and part.count == 1:
            continue
        for peg in surveys[owner.name].pegs:
            if not alike(bore, peg):
                continue
            single = owner.count == part.count == 1 and owner.scale_percent is part.scale_percent is None
            in_place = single and lies_in(peg, bore)
            how = stated_joint(job, owner.name, part.name)
            if not (in_place or how or peg.enters):
                continue  # a neck between two wider bodies
            yield PegInBore(
                part=part.name,
                bore=bore,
                peg_part=owner.name,
                peg=peg,
                in_place=in_place,
                how=how,
                fast=_flat_on_flat(peg, bore),
                tighter_mm=_tighter_mm(peg, bore),
            )


def _flat_on_flat(peg: Peg, bore: Bore) -> bool:
    """Return whether as much is missing of a bore as of the peg in it: flats lie on flats."""
    return peg.flats_n > 0 and bore.coverage_deg < WHOLE_DEG and abs(bore.coverage_deg - peg.coverage_deg) < LIKE_DEG


def _tighter_mm(peg: Peg, bore: Bore) -> float:
    """Return how much less room a peg with one flat has across it than round it, in a bore with one.

    A flat that leaves c degrees of a round of radius r lies at r cos(180 - c / 2), by geometry.
    """
    if peg.flats_n != 1 or not _flat_on_flat(peg, bore):
        return 0.0
    wide, deep = bore.drawn_diameter_mm / 2, peg.diameter_mm / 2
    across = wide * _flat_share(bore.coverage_deg) - deep * _flat_share(peg.coverage_deg)
    return max(0.0, (wide - deep) - across)


def _flat_share(coverage_deg: float) -> float:
    """Return how far from the axis, in radii, the one flat of a round lies."""
    return math.cos(math.radians(180.0 - coverage_deg / 2))


def _room_mm(bore: Bore, peg: Peg) -> float:
    """Return how much wider a bore is drawn than a peg."""
    return bore.drawn_diameter_mm - peg.diameter_mm


def alike(bore: Bore, peg: Peg) -> bool:
    """Return whether a bore is as wide as one that is drawn for a peg."""
    most_mm = max(WIDER_MOST_MM, WIDER_MOST_SHARE * peg.diameter_mm)
    return -TIGHTER_MOST_MM <= _room_mm(bore, peg) <= most_mm


def lies_in(peg: Peg, bore: Bore) -> bool:
    """Return whether a peg, as drawn, lies in a bore along its axis."""
    along = float((np.asarray(peg.centre_mm) - np.asarray(bore.centre_mm)) @ np.asarray(bore.axis))
    shared = (peg.length_mm + bore.depth_mm) / 2 - abs(along)
    return coaxial(bore, peg) and shared >= INSIDE_LEAST_SHARE * min(peg.length_mm, bore.depth_mm)


def stated_joint(job: Job, one: str, other: str) -> JointKind | None:
    """Return how two parts are said to hold together or to move on each other."""
    return next((joint.how for joint in job.joints if set(joint.between) == {one, other}), None)

"""Bores of placed copies that follow each other on one axis, so that one pin, post or screw lies in all of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from planner.assembly import Claim, coaxial
from planner.job import Hardware, part_of
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import Frame
from planner.survey import Bore

APART_MM = 5.0
"""Bores on one axis this far apart still hold one screw: a washer or a spacer lies between them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedBore:
    """A claimed bore of a copy, its axis and centre in the device's frame."""

    copy: str
    bore: Bore
    claim: Claim

    @property
    def turning(self) -> bool:
        """Whether something turns in it: on its pin, or on the bearing that sits in it."""
        return self.claim.fit == "turning" or self.claim.hardware.kind == "bearing"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreStack:
    """Bores that follow each other on one axis, in that order; and the slots of other copies that the pin lies in.

    ``slots`` holds copy, where the slot's long walls begin and end along the first bore's axis, counted from its
    centre, and the number of the slot.
    """

    bores: tuple[PlacedBore, ...]
    slots: tuple[tuple[str, float, float, int], ...] = ()

    @property
    def copies(self) -> tuple[str, ...]:
        """The copies that it goes through."""
        return tuple(dict.fromkeys(one.copy for one in self.bores))

    def of(self, copy: str) -> tuple[PlacedBore, ...]:
        """Return the bores of one copy."""
        return tuple(one for one in self.bores if one.copy == copy)

    @property
    def pin(self) -> Hardware:
        """What lies in the axis: what turns before what is clamped, what joins most parts first."""
        through = [one for one in self.bores if one.claim.hardware.kind not in ("bearing", "insert")] or self.bores
        return max(through, key=lambda one: (one.turning, len(one.claim.hardware.joins))).claim.hardware

    @property
    def ends_mm(self) -> tuple[float, float]:
        """Where it begins and ends along the first bore's axis, counted from that bore's centre; slots included."""
        spans = [span_mm(self.bores[0].bore, one.bore) for one in self.bores]
        spans += [(low, high) for _, low, high, _ in self.slots]
        return min(low for low, _ in spans), max(high for _, high in spans)


def bore_stacks(claims: Sequence[Claim], frames: Mapping[str, Frame]) -> tuple[BoreStack, ...]:
    """Return every stack of claimed bores of placed copies, those of one copy alone among them."""
    axes: list[list[PlacedBore]] = []
    for one in placed_bores(claims, frames):
        mine = next((axis for axis in axes if coaxial(axis[0].bore, one.bore)), None)
        if mine is None:
            axes.append([one])
        else:
            mine.append(one)
    return tuple(BoreStack(bores=tuple(stack)) for axis in axes for stack in _following(axis))


def placed_bores(claims: Sequence[Claim], frames: Mapping[str, Frame]) -> tuple[PlacedBore, ...]:
    """Return the claimed bores of every placed copy, in the device's frame."""
    return tuple(
        PlacedBore(copy=copy, bore=moved(claim.bore, frame), claim=claim)
        for copy, frame in frames.items()
        for claim in claims
        if claim.part == part_of(copy)
    )


def span_mm(base: Bore, other: Bore) -> tuple[float, float]:
    """Return where a bore begins and ends along another's axis, counted from that one's centre."""
    middle = float((np.asarray(other.centre_mm) - np.asarray(base.centre_mm)) @ np.asarray(base.axis))
    return middle - other.depth_mm / 2, middle + other.depth_mm / 2


def _following(axis: Sequence[PlacedBore]) -> list[list[PlacedBore]]:
    """Split the bores of an axis where one screw cannot reach from one to the next."""
    base = axis[0].bore
    ordered = sorted(axis, key=lambda one: span_mm(base, one.bore))
    found: list[list[PlacedBore]] = []
    for one in ordered:
        low, high = span_mm(base, one.bore)
        mine = found[-1] if found else []
        begun, ended = (
            min((span_mm(base, b.bore)[0] for b in mine), default=0.0),
            max((span_mm(base, b.bore)[1] for b in mine), default=0.0),
        )
        stacked = max((b.claim.hardware.stack_mm or 0.0 for b in (*mine, one)), default=0.0)
        if mine and (low - ended <= APART_MM or high - begun <= stacked + APART_MM):
            mine.append(one)
        else:
            found.append([one])
    return found

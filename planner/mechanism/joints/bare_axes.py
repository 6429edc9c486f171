"""Axes that two copies share as they stand, where no pin is named: bores of both, or a peg of one in the other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from planner.assembly import Claim, axes_of, coaxial, lies_in
from planner.finding import Vec3
from planner.job import part_of
from planner.mechanism.joints.bore_stacks import APART_MM, span_mm
from planner.mechanism.places.axis_fits import moved
from planner.mechanism.places.frame import Frame
from planner.survey import Bore, Peg, Survey

THIN_SHARE = 0.7
"""A peg that a bore is drawn for fills more than this of its width."""
OVER_MM = 0.25
"""Beyond this a peg is drawn too thick for its bore, and meets the part anyhow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BareAxis:
    """One axis, in the sense of the second copy's bore where it has one, with a point of it and the bores on it.

    ``peg_mm`` is the diameter of the peg that lies in them; 0 where nothing is drawn that does. ``ring`` is the bearing
    that carries it; empty where none does.
    """

    axis: Vec3
    centre_mm: Vec3
    bores: tuple[tuple[str, str], ...]
    peg_mm: float = 0.0
    ring: str = ""


def bare_axes(pair: tuple[str, str], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> list[BareAxis]:
    """Return every axis on which both copies have a bore, near enough for one pin to lie in both."""
    stands, moves = ([moved(bore, frames[copy]) for bore in surveys[part_of(copy)].bores] for copy in pair)
    found = []
    for axis in axes_of(moves):
        met = [bore for bore in stands if coaxial(axis.bores[0], bore)]
        if met and _within_reach(axis.bores, met):
            first = axis.bores[0]
            names = (*((pair[0], bore.id) for bore in met), *((pair[1], bore.id) for bore in axis.bores))
            found.append(BareAxis(axis=first.axis, centre_mm=first.centre_mm, bores=names))
    return found


def _within_reach(mine: Sequence[Bore], theirs: Sequence[Bore]) -> bool:
    """Return whether a pin that nobody named may lie in bores of two copies: it spans no more air than it is held in.

    A longer one would stand free between them; where copies stand so far apart, most likely a place is wrong.
    """
    held_mm = sum(bore.depth_mm for bore in (*mine, *theirs))
    spans = [[span_mm(mine[0], bore) for bore in bores] for bores in (mine, theirs)]
    gaps = (max(b[0] - a[1], a[0] - b[1]) for a in spans[0] for b in spans[1])
    return min(gaps) <= max(APART_MM, held_mm)


def peg_axes(pair: tuple[str, str], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]) -> list[BareAxis]:
    """Return every axis of bores of one copy that a round peg of the other lies in, as drawn."""
    found = []
    for owner, other in (pair[::-1], pair):
        pegs = [moved(peg, frames[other]) for peg in surveys[part_of(other)].pegs]
        bores = [moved(bore, frames[owner]) for bore in surveys[part_of(owner)].bores]
        widths_mm = {bore.id: wide for bore in bores if (wide := _thickest_mm(bore, pegs)) > 0.0}
        for axis in axes_of([bore for bore in bores if bore.id in widths_mm]):
            first = axis.bores[0]
            tightest = min(axis.bores, key=lambda bore: bore.diameter_mm - widths_mm[bore.id])
            names = (tightest.id, *(bore.id for bore in axis.bores if bore.id != tightest.id))
            found.append(
                BareAxis(
                    axis=first.axis,
                    centre_mm=first.centre_mm,
                    bores=tuple((owner, name) for name in names),
                    peg_mm=widths_mm[tightest.id],
                )
            )
    return found


def _thickest_mm(bore: Bore, pegs: Iterable[Peg]) -> float:
    """Return the diameter of the thickest peg that lies in a bore; 0 where none does."""
    like = (peg.diameter_mm for peg in pegs if lies_in(peg, bore))
    wide_mm = bore.drawn_diameter_mm
    return max((mm for mm in like if THIN_SHARE * wide_mm <= mm <= wide_mm + OVER_MM), default=0.0)


def ring_axes(
    claims: Sequence[Claim], surveys: Mapping[str, Survey], frames: Mapping[str, Frame]
) -> dict[tuple[str, str], list[BareAxis]]:
    """Return the axes of bearings that a round peg lies in as drawn, by the copy with the seat and that with the peg.

    Two bearings on one line are one axis.
    """
    found: dict[tuple[str, str], list[BareAxis]] = {}
    for claim in (claim for claim in claims if claim.hardware.kind == "bearing"):
        hole_mm = claim.hardware.diameter_mm
        for owner in (copy for copy in frames if part_of(copy) == claim.part):
            seat = moved(claim.bore, frames[owner])
            for copy in (copy for copy in frames if copy != owner):
                pegs = [moved(peg, frames[copy]) for peg in surveys[part_of(copy)].pegs]
                like = [peg for peg in pegs if fills_ring(peg, hole_mm)]
                axes = found.setdefault((owner, copy), [])
                if any(lies_in(peg, seat) for peg in like) and not any(_one_line(seat, axis) for axis in axes):
                    ring = claim.hardware.name
                    axes.append(BareAxis(axis=seat.axis, centre_mm=seat.centre_mm, bores=(), ring=ring))
    return {pair: axes for pair, axes in found.items() if axes}


def fills_ring(peg: Peg, hole_mm: float) -> bool:
    """Return whether a peg is as thick as one that is drawn for a ring."""
    return THIN_SHARE * hole_mm <= peg.diameter_mm <= hole_mm + OVER_MM


def _one_line(seat: Bore, axis: BareAxis) -> bool:
    """Return whether a seat lies on an axis."""
    return coaxial(seat, replace(seat, axis=axis.axis, centre_mm=axis.centre_mm))

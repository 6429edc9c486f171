"""Which stock size a piece of hardware has at a scale: the stated one, or a larger one that all its bores take."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from planner.rules.answers_over_scale import Steps, sampled
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.seat_tight import SeatTight
from planner.rules.rule import at_most, just_within, positive

Way = Literal["printed", "drilled"]
"""How another stock size goes in: into the bore as it prints, or once it is drilled."""
NEAR = 1e-3
"""Within this share of a scale at which another size is taken, bores that are much alike may differ."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A bore of a piece of hardware or of its insert, or the seat of its nut, with its part's own scale, if any."""

    of: BoreCase | SeatTight
    factor: float | None = None

    def scale(self, s: float) -> float:
        """Return the scale of its part at a job's scale."""
        return s if self.factor is None else self.factor

    def finished_mm(self, s: float) -> float:
        """Return how wide a bore is at a job's scale, after the work that the job states; 0 for a seat."""
        return self.of.finished_mm(self.scale(s)) if isinstance(self.of, BoreCase) else 0.0

    def takes(self, diameter_mm: float, s: float, has_mm: float) -> Way | None:
        """Return how it takes another stock size, ``has_mm`` wide as it is; None where it does not."""
        own = self.scale(s)
        if isinstance(self.of, SeatTight):
            return "printed" if self.of.sized(diameter_mm).fits(own) else None
        stock = stock_with(self.of, diameter_mm)
        if stock is None:
            return None
        if self.of.goes_in(own, has_mm, stock):
            return "printed"
        return "drilled" if self.of.goes_in_drilled(own, has_mm, stock) else None

    def rattles(self, has_mm: float) -> bool:
        """Return whether it is too wide for the size that the job states, being so wide."""
        return isinstance(self.of, BoreCase) and not at_most(has_mm, self.of.most_mm)

    def turns(self, diameters_mm: Sequence[float]) -> tuple[float, ...]:
        """Return where its answers to these sizes change."""
        if self.factor is not None:
            return ()
        if isinstance(self.of, SeatTight):
            return tuple(t for diameter in diameters_mm for t in self.of.sized(diameter).turns())
        case, turns = self.of, [self.of.scale_for(just_within(self.of.most_mm)), *self.of.work_turns()]
        for stock in (one for one in case.larger if one.diameter_mm in diameters_mm):
            turns += case.turns_for(stock)
        return positive(*turns)


def stock_with(case: BoreCase, diameter_mm: float) -> Stock | None:
    """Return the stock size of a diameter as one bore needs it: the ends of a pilot are not those of a clearance."""
    return next((one for one in case.larger if one.diameter_mm == diameter_mm), None)


def _way(diameter_mm: float, s: float, members: Sequence[tuple[Member, float]]) -> Way | None:
    """Return how all members, each so wide, take another stock size; None where one of them does not."""
    way: Way = "printed"
    for member, has_mm in members:
        each = member.takes(diameter_mm, s, has_mm)
        if each is None:
            return None
        if each == "drilled":
            way = "drilled"
    return way


@dataclass(frozen=True, kw_only=True)
class Pieces:
    """All bores and seats of one piece of hardware, and the diameters that may be taken instead, nearest first."""

    members: tuple[Member, ...]
    diameters_mm: tuple[float, ...]

    def taken(self, s: float, asked: Sequence[Member]) -> float | None:
        """Return the diameter that is taken instead of the stated one; None where that stays.

        ``asked`` is the member that asks: one much like it stands for it among the others, and it for itself.
        """
        has = [(member, member.finished_mm(s)) for member in (*asked, *self.members)]
        if not any(member.rattles(has_mm) for member, has_mm in has):
            return None
        drilled: float | None = None
        for diameter_mm in self.diameters_mm:
            way = _way(diameter_mm, s, has)
            if way == "printed":
                return diameter_mm
            if way == "drilled" and drilled is None:
                drilled = diameter_mm
        return drilled

    def taken_by(self, asked: Member, s: float) -> float | None:
        """Return the same, followed beforehand: a member is only asked near a scale at which the size changes."""
        ends, between = self._settled
        place = bisect_left(ends, s)
        return self.taken(s, (asked,)) if place % 2 else between[place // 2]

    @cached_property
    def _settled(self) -> tuple[tuple[float, ...], tuple[float | None, ...]]:
        """Return both ends of the surroundings of every turn, and what is taken between these."""
        ends, between = list[float](), [self.steps.between[0]]
        for turn, after in zip(self.steps.turns, self.steps.between[1:], strict=True):
            low, high = turn * (1.0 - NEAR), turn * (1.0 + NEAR)
            if ends and low <= ends[-1]:
                ends[-1], between[-1] = high, after
            else:
                ends += (low, high)
                between.append(after)
        return tuple(ends), tuple(between)

    @cached_property
    def steps(self) -> Steps[float | None]:
        """What is taken over all scales: a bore that asks is much like one of the members."""
        turns = [turn for member in self.members for turn in member.turns(self.diameters_mm)]
        return sampled(turns, lambda s: self.taken(s, ()))

"""All loads on a part of a device: its own, what cords do to it, what others pass on to it, and what hangs at a tip."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import chain

from planner.assembly import Claim
from planner.job import Job, Part
from planner.mechanism import CopyLoads, Frame, PointLoad
from planner.strength.hung.hung_loads import HungLoads
from planner.strength.loads.entering import all_entering
from planner.strength.loads.every_copy import copies_of, copy_cases, over_copies, told_and_open
from planner.strength.loads.load_cases import pin_cases
from planner.strength.loads.part_load import LoadCase, Support
from planner.strength.loads.part_supports import held_at_both_ends
from planner.strength.loads.passed_on import LoadsOnOthers
from planner.survey import Survey

LOADED = ("load", "pin")
"""Duties of parts that are screened; a shell is under what hangs at a tip, too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EveryLoad:
    """What loads the parts of a job, as drawn.

    Parameters
    ----------
    at_load
        The load at the tips that cords drive, by copy.
    moved, gripped
        What cords do to each copy in each of their states, and what makes it, in words.
    others, hung
        What is passed on, and what hangs at a tip; None where nothing does.
    """

    job: Job
    surveys: Mapping[str, Survey]
    claims: Sequence[Claim]
    frames: Mapping[str, Frame]
    held: Callable[[str], Sequence[Support]]
    load_n: float
    at_load: CopyLoads
    moved: Sequence[CopyLoads]
    gripped: str
    others: LoadsOnOthers
    hung: HungLoads | None

    def on(self, part: Part) -> tuple[list[LoadCase], list[LoadCase]] | None:
        """Return the cases of a part of which all is known, and those that ask for something; None: it bears nothing.

        A part with a duty under load has no cases where nothing says what holds it.
        """
        own, hung = part.judged_duty in LOADED, self.hung
        if not own and not (hung and hung.carries(part.name)):
            return None
        survey, by_copy = self.surveys[part.name], list[tuple[str, list[LoadCase], list[LoadCase]]]()
        for copy in copies_of(part, self.frames, (*self.at_load, *chain(*self.moved))):
            supports = self.held(copy)
            cases = self._own(part, copy, supports) if own and part.judged_duty != "pin" else []
            passed = [*self.others.passed_to(copy, supports), *(hung.on(copy) if hung else ())]
            by_copy.append((copy, *told_and_open([*cases, *passed])))
        known = over_copies([(copy, sure) for copy, sure, _ in by_copy])
        guessed = over_copies([(copy, perhaps) for copy, _, perhaps in by_copy])
        if part.judged_duty == "pin":
            ends = held_at_both_ends(part, survey, self.claims)
            alone, open_ones = told_and_open(pin_cases(part, survey, self.load_n, held=ends))
            known, guessed = [*alone, *known], [*open_ones, *guessed]
        if not own and not known and not guessed:
            return None
        return all_entering(known, survey), all_entering(guessed, survey)

    def _own(self, part: Part, copy: str, supports: Sequence[Support]) -> list[LoadCase]:
        """Return what is put on a copy itself: at its tip, or where it is stated, or at its worst; and by cords."""
        told: list[tuple[tuple[PointLoad, ...], str]] = [
            ((load,), f"{self.load_n:g} N at the tip") for load in self.at_load.get(copy, ())
        ]
        told += [(load, self.gripped) for load in dict.fromkeys(one.get(copy, ()) for one in self.moved)]
        survey, driven = self.surveys[part.name], copy in self.at_load
        return copy_cases(part, survey, supports, told, self.load_n, driven=driven)

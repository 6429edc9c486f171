"""Bind the rule of a drill's reach to the bores that may be drilled, where the part itself stands in the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.assembly import DrillReach
from planner.finding import Verdict
from planner.rules.fit.bores.bore_case import BoreCase
from planner.rules.fit.bores.bore_reach import BoreReach, Drilled
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.bores.work_done import WorkDone
from planner.rules.rule import Rule
from planner.survey import Bore

SCALES = (0.5, 2.0)
"""A bore is looked at over these scales; what is reached all over is not spoken of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ForHardware:
    """A bore that is drilled where it is tight for its hardware, or as the job says."""

    tight: BoreTight

    def drill_mm(self, s: float) -> float | None:
        """Return the drill's diameter, in mm; None where the bore stays, is scraped, or takes nothing drilled."""
        case = self.tight.case
        printed = case.printed_mm(s)
        if case.work.does(printed):
            cut = case.work.cut_mm(printed)
            return cut if printed < cut else None
        drilled = self.tight.verdict(s) is Verdict.GO_WITH_WORK and case.drill_mm <= case.drill_most_mm
        return case.drill_mm if drilled else None

    @property
    def drills_mm(self) -> tuple[float, ...]:
        """Every diameter that it may be drilled to, in mm."""
        return (self.tight.case.drill_mm, *(work.to_mm for work in self.tight.case.work.works))

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which it begins or ends to be drilled."""
        return self.tight.turns()


@dataclass(frozen=True, slots=True, kw_only=True)
class ForWork:
    """A bore without hardware that the job has drilled."""

    done: WorkDone

    def drill_mm(self, s: float) -> float | None:
        """Return the drill's diameter, in mm; None where the work changes nothing."""
        printed = self.done.bore.diameter_mm * s - self.done.undersize_mm
        cut = self.done.work.cut_mm(printed)
        return cut if printed < cut else None

    @property
    def drills_mm(self) -> tuple[float, ...]:
        """Every diameter that it may be drilled to, in mm."""
        return tuple(work.to_mm for work in self.done.work.works)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which the work begins or ends to change it."""
        return self.done.turns()


def reach_rules(rules: Sequence[Rule], reach: DrillReach | None) -> list[Rule]:
    """Return a rule for every bore that may be drilled and has something in a drill's way."""
    if reach is None:
        return []
    found: list[Rule] = []
    for rule in rules:
        if isinstance(rule, BoreTight):
            found += _rule(rule.case, rule.case.bore, ForHardware(tight=rule), reach)
        elif isinstance(rule, WorkDone) and not rule.cases:
            found += _rule(rule, rule.bore, ForWork(done=rule), reach)
    return found


def _rule(of: BoreCase | WorkDone, bore: Bore, drilled: Drilled, reach: DrillReach) -> list[BoreReach]:
    """Return the rule of one bore; none where nothing is in a drill's way at any size from half to twice."""
    ends = reach.ends(of.part, bore)
    rule = BoreReach(part=of.part, feature=of.feature, bore=bore, drilled=drilled, ends=ends)
    scales = [*SCALES, *(s for s in rule.turns() if SCALES[0] < s < SCALES[1])]
    between = [(a + b) / 2 for a, b in pairwise(sorted(scales))]
    return [rule] if any(not rule.reached(s) for s in (*scales, *between)) and ends else []

"""One bore with the hardware that goes through it, at any scale.

A bore of inscribed diameter i prints at ``i s - u``, u being the printer's undersize. It must take the hardware with
its running clearance, must not rattle, and must keep some wall beside it, also after drilling.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from planner.digits import hardly_apart, told_apart
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.rule import at_least, at_most, just_reaches, just_within
from planner.sourced import Sourced
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Another stock size that may serve: the least and largest printed bore, and what a tight one is drilled to.

    ``boss_mm`` is how wide the boss must be where it cuts its own thread; 0 where it does not.
    """

    label: str
    diameter_mm: float
    need_mm: float
    most_mm: float
    drill_mm: float
    boss_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreCase:
    """One bore and the hardware that goes through it; all lengths as drawn or as bought, in mm.

    ``need_mm`` and ``most_mm`` are the least and largest printed bore, ``drill_mm`` what a tight one is drilled to.
    ``larger`` and ``smaller`` are the other stock sizes, the nearest first. ``stepped``: other cylinders are cut into
    the same stack, so that this one's depth is not the drill's; ``floored``: a narrower one goes on from it.
    ``fit_words`` and ``play_words`` say whose ends these are. A drill wider than ``drill_most_mm`` turns in no hand's
    chuck: such a bore is widened by ``scrape_mm`` at most, with sandpaper round a rod or a reamer.
    """

    part: str
    feature: str
    hardware: str
    fit: str
    bore: Bore
    upright: bool
    undersize_mm: Sourced
    calibrated: bool
    need_mm: float
    most_mm: float
    drill_mm: float
    bush_mm: float
    edge_limit_mm: float
    drill_most_mm: float
    scrape_mm: float
    larger: tuple[Stock, ...]
    smaller: tuple[Stock, ...]
    stepped: bool
    floored: bool
    fit_words: str
    play_words: str
    clearance_source: str
    play_source: str
    edge_source: str
    work: WorkedBore = field(default_factory=WorkedBore)

    @property
    def feature_text(self) -> str:
        """What a person would call it."""
        return f"{self.hardware} in {self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)"

    def printed_mm(self, s: float, undersize_mm: float | None = None) -> float:
        """Return the printed diameter; at the middle undersize unless another is given."""
        return self.bore.diameter_mm * s - (self.undersize_mm.value if undersize_mm is None else undersize_mm)

    def finished_mm(self, s: float, undersize_mm: float | None = None) -> float:
        """Return the diameter after the work that the job states; as printed where it states none."""
        return self.work.finished_mm(self.printed_mm(s, undersize_mm))

    def work_turns(self) -> tuple[float, ...]:
        """Return the scales at which something about the stated work changes."""
        sizes = self.work.printed_turns_mm()
        return (*(self.scale_for(size) for size in sizes), *(self.scale_leaving(size) for size in sizes))

    def scale_for(self, printed_mm: float) -> float:
        """Return the scale at which the bore prints at a diameter."""
        return (printed_mm + self.undersize_mm.value) / self.bore.diameter_mm

    def left_mm(self, s: float, drill_mm: float) -> float:
        """Return the wall left beside the bore after drilling it to a diameter."""
        if self.bore.edge_wall_mm is None:
            return float("inf")
        return (self.bore.edge_wall_mm + self.bore.drawn_diameter_mm / 2) * s - drill_mm / 2

    def scale_leaving(self, drill_mm: float) -> float:
        """Return the scale at which drilling to a diameter leaves just the least wall."""
        if self.bore.edge_wall_mm is None:
            return 0.0
        return (just_reaches(self.edge_limit_mm) + drill_mm / 2) / (
            self.bore.edge_wall_mm + self.bore.drawn_diameter_mm / 2
        )

    def drillable(self, s: float, drill_mm: float, undersize_mm: float | None = None) -> bool:
        """Return whether a hand can widen the bore so far: enough wall is left; a blind one to its own depth."""
        in_reach = self.in_reach(self.printed_mm(s, undersize_mm), drill_mm)
        return in_reach and at_least(self.left_mm(s, drill_mm), self.edge_limit_mm)

    def in_reach(self, printed_mm: float, drill_mm: float) -> bool:
        """Return whether a drill in a hand's chuck is so wide, or little enough is left to scrape off."""
        return drill_mm <= self.drill_most_mm or at_least(printed_mm + self.scrape_mm, drill_mm)

    def scale_to_widen(self, drill_mm: float) -> float:
        """Return the least scale at which a hand can widen the bore to a diameter."""
        return max(self.scale_leaving(drill_mm), *self.reach_turns(drill_mm), 0.0)

    def reach_turns(self, drill_mm: float) -> tuple[float, ...]:
        """Return the scale from which a diameter that no hand drills is scraped; none where a drill does it."""
        if drill_mm <= self.drill_most_mm:
            return ()
        return (self.scale_for(just_reaches(drill_mm - self.scrape_mm)),)

    def goes_in(self, s: float, printed_mm: float, stock: Stock) -> bool:
        """Return whether another stock size fits the bore as it prints, its boss wide enough."""
        fits = at_least(printed_mm, stock.need_mm) and at_most(printed_mm, stock.most_mm)
        return fits and at_least(self._boss_mm() * s, stock.boss_mm)

    def goes_in_drilled(self, s: float, printed_mm: float, stock: Stock) -> bool:
        """Return whether another stock size fits once the bore is drilled for it."""
        tight = printed_mm < stock.need_mm and self.in_reach(printed_mm, stock.drill_mm)
        tight = tight and self.drillable(s, stock.drill_mm)
        return tight and at_least(self._boss_mm() * s, stock.boss_mm)

    def turns_for(self, stock: Stock) -> tuple[float, ...]:
        """Return the scales at which another stock size begins or ends to fit."""
        boss = (
            (just_reaches(stock.boss_mm) / self._boss_mm(),)
            if stock.boss_mm > 0.0 and self._boss_mm() < float("inf")
            else ()
        )
        fits = self.scale_for(just_reaches(stock.need_mm)), self.scale_for(just_within(stock.most_mm))
        return (*fits, self.scale_leaving(stock.drill_mm), *self.reach_turns(stock.drill_mm), *boss)

    def _boss_mm(self) -> float:
        """Return how wide the matter round the bore is as drawn, where it is narrowest."""
        edge = self.bore.edge_wall_mm
        return float("inf") if edge is None else self.bore.drawn_diameter_mm + 2.0 * edge

    def drilling(self, s: float, drill_mm: float) -> str:
        """Return the work of drilling to a diameter, in words: from, to, how deep, and the wall that is left."""
        printed = self.printed_mm(s)
        if printed > 0.0 and drill_mm > self.drill_most_mm:
            first = "try it first; if it binds, " if hardly_apart(printed, drill_mm) else ""
            work = (
                f"{first}ream {printed:.2f} to {drill_mm:.2f} mm or, if you have no reamer that wide, widen it with "
                "sandpaper round a rod"
            )
        elif printed > 0.0 and hardly_apart(printed, drill_mm):
            way = "through" if self.bore.through else "in"
            work = f"try it first; if it binds, run a {drill_mm:.2f} mm drill {way} by hand"
        elif printed > 0.0:
            work = f"drill {printed:.2f} to {drill_mm:.2f} mm"
        else:
            work = f"drill to {drill_mm:.2f} mm: it may print closed"
        if self.floored or not self.bore.through:
            deep = "the bore is now" if self.stepped else f"{self.bore.depth_mm * s:.1f} mm"
            work += f", no deeper than {deep} (set a depth stop)"
        left = self.left_mm(s, drill_mm)
        return work if left == float("inf") else f"{work}; a wall of {left:.2f} mm is left"

    def too_little_left(self, s: float, drill_mm: float) -> str:
        """Return why the bore cannot be drilled to a diameter."""
        if not self.in_reach(self.printed_mm(s), drill_mm):
            return (
                f"a hand turns no drill over {self.drill_most_mm:g} mm, and scrapes off no more than "
                f"{self.scrape_mm:g} mm"
            )
        if self.left_mm(s, drill_mm) <= 0.0:
            return "drilling breaks out at the side"
        left, limit = told_apart(self.left_mm(s, drill_mm), self.edge_limit_mm)
        return f"drilling leaves a wall of {left} mm; {limit} mm is needed"

    def question(self) -> str:
        """Return the one measurement that decides, where the undersize does: the same for all bores that lie so."""
        axis = "vertical" if self.upright else "horizontal"
        low, high = self.undersize_mm.low, self.undersize_mm.high
        return (
            f"How much smaller do bores with a {axis} axis print on this printer? Anything from {low:g} to {high:g} mm "
            "is usual, and what fits depends on it."
        )

    def caution(self) -> str:
        """Say that the undersize decides here."""
        return (
            f"Judged at {self.undersize_mm.value:g} mm undersize; between {self.undersize_mm.low:g} and "
            f"{self.undersize_mm.high:g} mm the answer changes: measure a test bore first."
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class AboutBore:
    """What a rule about one bore and its hardware speaks of."""

    case: BoreCase

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.case.part

    @property
    def feature(self) -> str:
        """The bore."""
        return self.case.feature

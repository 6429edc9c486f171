"""Bores at scale, against hardware that keeps its size.

A bore of inscribed diameter i prints at ``i s - u``, u being the printer's undersize. It must take the
hardware with its running clearance, must not rattle, and must keep matter beside it, also after drilling.
"""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.rules.rule import at_least, at_most, positive
from planner.sourced import Sourced
from planner.survey import Bore


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Another stock size that may serve: the printed bore it needs at least and bears at most."""

    label: str
    need_mm: float
    most_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreCase:
    """One bore and the hardware that goes through it; all lengths as drawn or as bought, in mm.

    ``need_mm`` and ``most_mm`` are the least and largest printed bore, ``larger`` the next stock sizes.
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
    bush_mm: float
    edge_limit_mm: float
    larger: tuple[Stock, ...]
    clearance_source: str
    edge_source: str

    @property
    def feature_text(self) -> str:
        """What a person would call it."""
        return f"{self.hardware} in {self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)"

    def printed_mm(self, s: float, undersize_mm: float | None = None) -> float:
        """Return the printed diameter; at the middle undersize unless another is given."""
        return self.bore.diameter_mm * s - (self.undersize_mm.value if undersize_mm is None else undersize_mm)

    def scale_for(self, printed_mm: float) -> float:
        """Return the scale at which the bore prints at a diameter."""
        return (printed_mm + self.undersize_mm.value) / self.bore.diameter_mm

    def left_mm(self, s: float, drill_mm: float) -> float:
        """Return the matter left beside the bore after drilling it to a diameter."""
        if self.bore.edge_wall_mm is None:
            return float("inf")
        return (self.bore.edge_wall_mm + self.bore.drawn_diameter_mm / 2) * s - drill_mm / 2

    def scale_leaving(self, drill_mm: float) -> float:
        """Return the scale at which drilling to a diameter leaves just the least matter."""
        if self.bore.edge_wall_mm is None:
            return 0.0
        return (self.edge_limit_mm + drill_mm / 2) / (self.bore.edge_wall_mm + self.bore.drawn_diameter_mm / 2)

    def drillable(self, s: float, drill_mm: float) -> bool:
        """Return whether the bore can be drilled to a diameter: through, straight, and matter left."""
        return self.bore.through and at_least(self.left_mm(s, drill_mm), self.edge_limit_mm)

    def question(self) -> str:
        """Return the one measurement that decides, where the undersize does."""
        way = "upright" if self.upright else "lying"
        low, high = self.undersize_mm.low, self.undersize_mm.high
        return (
            f"How much smaller does an {way} bore of {self.bore.drawn_diameter_mm:.1f} mm print on this printer? "
            f"Anything from {low:g} to {high:g} mm is usual, and it decides {self.hardware} in {self.part}."
        ).replace("an lying", "a lying")


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreTight:
    """``bore.tight``: the printed bore takes the hardware with its running clearance, or can be drilled to it."""

    case: BoreCase
    rule: str = "bore.tight"

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.case.part

    @property
    def feature(self) -> str:
        """The bore."""
        return self.case.feature

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        if at_least(self.case.printed_mm(s, undersize_mm), self.case.need_mm):
            return Verdict.GO
        return Verdict.GO_WITH_WORK if self.case.drillable(s, self.case.need_mm) else Verdict.NO_GO

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed, remedy = case.printed_mm(s), ""
        if verdict is Verdict.GO_WITH_WORK:
            left = case.left_mm(s, case.need_mm)
            rest = "" if left == float("inf") else f", {left:.2f} mm of matter stays beside it"
            remedy = f"drill {max(printed, 0.0):.2f} to {case.need_mm:.2f} mm{rest}"
        elif verdict is Verdict.NO_GO:
            remedy = (
                f"print at {100 * case.scale_for(case.need_mm):.1f} % or more, take thinner hardware, "
                "or put the bore back to hardware size in the mesh"
            )
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=printed,
            limit=case.need_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore prints at {printed:.2f} mm "
            f"({case.bore.diameter_mm * s:.2f} mm less {case.undersize_mm.value:g} mm undersize), "
            f"{case.fit} needs {case.need_mm:.2f} mm or more",
            remedy=remedy,
            source=f"{case.clearance_source}; undersize: {case.undersize_mm.source}",
            caution=_undersize_caution(case) if decides else "",
            question=case.question() if decides and not case.calibrated else "",
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it fits as printed, and where drilling leaves enough."""
        return positive(self.case.scale_for(self.case.need_mm), self.case.scale_leaving(self.case.need_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreLoose:
    """``bore.loose``: the printed bore does not rattle, or the next stock size or a bush fits."""

    case: BoreCase
    rule: str = "bore.loose"

    @property
    def part(self) -> str:
        """Name of the part."""
        return self.case.part

    @property
    def feature(self) -> str:
        """The bore."""
        return self.case.feature

    def way_out(self, s: float, undersize_mm: float | None = None) -> str:
        """Return the work that makes a loose bore good, or nothing where there is none."""
        case, printed = self.case, self.case.printed_mm(s, undersize_mm)
        for stock in case.larger:
            if at_least(printed, stock.need_mm) and at_most(printed, stock.most_mm):
                return f"take {stock.label} instead"
            if printed < stock.need_mm and case.drillable(s, stock.need_mm):
                return f"drill to {stock.need_mm:.2f} mm and take {stock.label} instead"
        if at_least(printed, case.bush_mm):
            return f"glue in a bush, {printed:.2f} mm outside, bored {case.need_mm:.2f} mm"
        if case.drillable(s, case.bush_mm):
            return f"drill to {case.bush_mm:.2f} mm and glue in a bush bored {case.need_mm:.2f} mm"
        return ""

    def verdict(self, s: float, undersize_mm: float | None = None) -> Verdict:
        """Return the verdict at a scale and an undersize."""
        if at_most(self.case.printed_mm(s, undersize_mm), self.case.most_mm):
            return Verdict.GO
        return Verdict.GO_WITH_WORK if self.way_out(s, undersize_mm) else Verdict.NO_GO

    def at(self, s: float) -> Finding:
        """Judge the bore at a scale."""
        case, verdict = self.case, self.verdict(s)
        printed = case.printed_mm(s)
        remedy = "" if verdict is Verdict.GO else self.way_out(s)
        if verdict is Verdict.NO_GO:
            remedy = (
                f"print at {100 * case.scale_for(case.most_mm):.1f} % or less, "
                "or put the bore back to hardware size in the mesh"
            )
        decides = {self.verdict(s, u) for u in (case.undersize_mm.low, case.undersize_mm.high)} != {verdict}
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=case.feature_text,
            verdict=verdict,
            measured=printed,
            limit=case.most_mm,
            unit="mm",
            at_mm=case.bore.centre_mm,
            why=f"{case.hardware}: the bore prints at {printed:.2f} mm, {case.fit} bears {case.most_mm:.2f} mm or less",
            remedy=remedy,
            source=f"{case.clearance_source}; undersize: {case.undersize_mm.source}",
            caution=_undersize_caution(case) if decides else "",
            question=case.question() if decides and not case.calibrated else "",
        )

    def turns(self) -> tuple[float, ...]:
        """Return where it starts to rattle, and where each way out begins and ends."""
        case = self.case
        turns = [case.scale_for(case.most_mm), case.scale_for(case.bush_mm), case.scale_leaving(case.bush_mm)]
        for stock in case.larger:
            turns += [case.scale_for(stock.need_mm), case.scale_for(stock.most_mm), case.scale_leaving(stock.need_mm)]
        return positive(*turns)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreEdge:
    """``bore.edge``: least matter beside the bore, after the drilling that ``bore.tight`` asks for.

    ``case`` is None for a bore that no hardware claims: it is judged as it prints.
    """

    part: str
    feature: str
    bore: Bore
    edge_mm: float
    limit_mm: float
    duty: str
    case: BoreCase | None
    source: str
    rule: str = "bore.edge"

    def at(self, s: float) -> Finding:
        """Judge the matter beside the bore at a scale."""
        drilled = self.case is not None and BoreTight(case=self.case).verdict(s) is Verdict.GO_WITH_WORK
        measured = self.case.left_mm(s, self.case.need_mm) if drilled and self.case else self.edge_mm * s
        fits = at_least(measured, self.limit_mm)
        name = self.case.feature_text if self.case else f"{self.bore.id} ({self.bore.drawn_diameter_mm:.2f} mm)"
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=name,
            verdict=Verdict.GO if fits else Verdict.NO_GO,
            measured=measured,
            limit=self.limit_mm,
            unit="mm",
            at_mm=self.bore.edge_at_mm or self.bore.centre_mm,
            why=f"{measured:.2f} mm of matter beside {name}"
            + (" after drilling" if drilled else "")
            + f", {self.limit_mm:.2f} mm needed for duty {self.duty}",
            remedy="" if fits else f"print at {100 * self.limit_mm / self.edge_mm:.1f} % or more, or thicken the boss",
            source=self.source,
        )

    def turns(self) -> tuple[float, ...]:
        """Return where the matter just suffices, drilled or not, and where drilling begins."""
        own = positive(self.limit_mm / self.edge_mm) if self.edge_mm > 0 else ()
        return own + (BoreTight(case=self.case).turns() if self.case else ())


def _undersize_caution(case: BoreCase) -> str:
    """Say that the undersize decides here."""
    return (
        f"Judged at {case.undersize_mm.value:g} mm undersize; between {case.undersize_mm.low:g} and "
        f"{case.undersize_mm.high:g} mm the answer changes: measure a test bore first."
    )

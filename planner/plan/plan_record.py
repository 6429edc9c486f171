"""A plan: its last stage, and what that stage was judged to be."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Finding, Guess, Verdict
from planner.job import Job, Material
from planner.layers import Amount
from planner.mechanism import Movement
from planner.packing import Plate, Run
from planner.plan.planned_part import PlannedPart
from planner.plan.stages import CouponFirst, Scheduled
from planner.remedy import Remedies
from planner.rules import Headline, Question, Rule
from planner.scale import Scale
from planner.schedule import Batch, Clocks
from planner.size import MeasureScale, Widening, Window
from planner.supplies import Built, Caution, Cost, Cut, HardwareLine, MaterialChoice, built


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """Sums over all plates; None with a reason in ``withheld`` where something could not be computed."""

    duration_s: Amount | None
    mass_g: Amount | None
    withheld: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything about one job at one scale: the last stage, and what ``judged`` says about it.

    Fields are the judgement; facts of the stage are read through properties, so that no fact stands twice.
    """

    stage: Scheduled
    verdict: Verdict
    findings: tuple[Finding, ...]
    questions: tuple[Question, ...]
    headline: Headline
    window: Window
    part_windows: tuple[Window, ...]
    widenings: tuple[Widening, ...]
    """What would widen the window most."""
    remedies: Remedies
    """What settles findings of the rules of fit, each proved."""
    totals: Totals
    worn_g: float | None
    built: Built
    """The device as it is built: every decision about hardware, cuts and work."""
    cost: Cost | None
    cautions: tuple[Caution, ...]

    @property
    def job(self) -> Job:
        """The job, with the calendar that its plates run by."""
        return self.stage.job

    @property
    def scale_percent(self) -> float:
        """The scale of the job."""
        return self.stage.sized.percent

    @property
    def scale_from(self) -> str:
        """Why this scale: the percent stated, or the measure that governs, in one sentence."""
        return self.stage.sized.ready.sizing.why

    @property
    def measures(self) -> tuple[MeasureScale, ...]:
        """What each measure of the recipient asks for, and what it leaves for growth."""
        return self.stage.sized.ready.sizing.measures

    @property
    def movement(self) -> Movement | None:
        """How the device moves; None where nothing does."""
        return self.stage.sized.ready.movement

    @property
    def hardware(self) -> tuple[HardwareLine, ...]:
        """What goes into the bag, as built."""
        return self.built.hardware

    @property
    def cuts(self) -> tuple[Cut, ...]:
        """What is cut, as built."""
        return self.built.cuts

    def built_at(self, percent: float) -> Built:
        """Return the device as it would be built at another size."""
        factor = Scale(percent).factor
        return built(self.job, factor, [rule.at(factor) for rule in self.rules])

    @property
    def rules(self) -> tuple[Rule, ...]:
        """The bound rules, for sizes that are only tried."""
        return self.stage.sized.ready.bound.rules

    @property
    def guesses(self) -> tuple[Guess, ...]:
        """What had to be guessed to bind the rules."""
        return self.stage.sized.fit.guesses

    @property
    def checked_n(self) -> int:
        """How many features were compared with something."""
        return self.stage.sized.fit.checked_n

    @property
    def features_n(self) -> int:
        """How many features there are."""
        return self.stage.sized.fit.features_n

    @property
    def choice(self) -> MaterialChoice:
        """The choice of the material, with what was found against the others."""
        return self.stage.sized.choice

    @property
    def material(self) -> Material:
        """The material that everything is printed in."""
        return self.stage.sized.material

    @property
    def parts(self) -> tuple[PlannedPart, ...]:
        """Every kind of part, at size."""
        return self.stage.sized.parts

    @property
    def works_n(self) -> int:
        """How many openings need work by hand."""
        return sum(finding.verdict is Verdict.GO_WITH_WORK for finding in self.findings)

    @property
    def plates(self) -> tuple[Plate, ...]:
        """The plates to print."""
        return self.stage.plates

    @property
    def batches(self) -> tuple[Batch, ...]:
        """One a plate: its risk, and whether its pieces are better printed on several."""
        return self.stage.batches

    @property
    def clocks(self) -> Clocks | None:
        """When everything is done; None without a calendar."""
        return self.stage.clocks

    @property
    def runs(self) -> tuple[Run, ...]:
        """When each plate runs; empty without a calendar."""
        return self.clocks.table.runs if self.clocks else ()

    @property
    def coupon(self) -> CouponFirst | None:
        """What is printed and measured before the plates; None where nothing hangs on it."""
        return self.stage.coupon

    @property
    def parted_why(self) -> str:
        """Why plates were parted to be ready in time; empty where they were not."""
        return self.stage.parted_why

"""Records of a plan: everything about one job at one scale."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from planner.finding import Finding, Guess, Verdict
from planner.job import Job, Material, Part
from planner.layers import Amount, PartEstimate
from planner.mesh import Solid
from planner.packing import Plate, Run
from planner.pose import PoseChoice
from planner.rules import Rule
from planner.schedule import Batch, Clocks
from planner.size import Asked, Widening, Window
from planner.supplies import Caution, Cost, Cut, HardwareLine, MaterialChoice
from planner.survey import Survey


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedPart:
    """One kind of part: as drawn, as measured, and as it will be printed.

    ``scale_percent`` is (x, y, z); ``posed`` is at size, mirrored where the side asks for it, turned so
    that ``pose.down`` is down, standing on z = 0 with its bounding box centred on x = y = 0.
    """

    part: Part
    solid: Solid
    survey: Survey
    pose: PoseChoice
    scale_percent: tuple[float, float, float]
    mirrored: bool
    sized: Solid
    """At size and mirrored, in the drawn orientation."""
    posed: Solid
    estimate: PartEstimate | None
    other_way: PartEstimate | None
    """Of the next best pose, where the pose was chosen: what standing on it would cost."""
    outline_mm: tuple[tuple[tuple[float, float], ...], ...]
    """Rings of the shadow of ``posed`` on the bed, outer ring first, then holes."""
    mass_g: float | None
    """Of one copy, support and brim not counted; None for an unsound mesh."""
    file: str
    """Path of the part's mesh at size, relative to the plan's folder."""

    @property
    def runner_up(self) -> str:
        """The next best way up and what it would cost a copy; empty where the pose is stated, or the only one."""
        other, mine = self.other_way, self.estimate
        if other is None or mine is None:
            return self.pose.runner_up
        minutes, cm3 = (other.duration_s - mine.duration_s) / 60.0, (other.deposited_mm3 - mine.deposited_mm3) / 1000.0
        return f"{self.pose.runner_up}: {minutes:+.0f} min and {cm3:+.1f} cm3 a copy"


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """Sums over all plates; None with a reason in ``withheld`` where something could not be computed."""

    duration_s: Amount | None
    mass_g: Amount | None
    withheld: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CouponFirst:
    """The coupon of a job's printer, material and settings, printed before its plates.

    ``why`` says what it decides. ``start`` and ``end`` are its run, ``last_start`` the latest that day, ``measured``
    when plates may begin; all None without a calendar, or where there is no time for it. Its grams are in no total.
    """

    why: str
    printer: str
    material: str
    duration_s: float
    hands_min: int
    mass_g: Amount
    day: date
    """When it is meant to be printed: its start, else the day of the plan."""
    start: datetime | None
    last_start: datetime | None
    end: datetime | None
    measured: datetime | None

    @property
    def tonight(self) -> str:
        """One line about its start; empty where it has no time, or not on the plan's first day."""
        if self.start is None or self.last_start is None:
            return ""
        before = f", before {self.last_start:%H:%M}" if self.last_start.date() == self.start.date() else ""
        return f"the coupon on {self.printer}, {self.start:%a %d %b %H:%M}{before}; measure it before any plate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything about one job at one scale."""

    job: Job
    scale_percent: float
    scale_from: str
    """Why this scale: the percent stated, or the measure that governs, in one sentence."""
    verdict: Verdict
    findings: tuple[Finding, ...]
    guesses: tuple[Guess, ...]
    questions: tuple[str, ...]
    checked_n: int
    features_n: int
    window: Window
    part_windows: tuple[Window, ...]
    rules: tuple[Rule, ...]
    """The bound rules, for sizes that are only tried."""
    measures: tuple[Asked, ...]
    """What each measure of the recipient asks for, and what it leaves for growth."""
    widenings: tuple[Widening, ...]
    """What would widen the window most."""
    parts: tuple[PlannedPart, ...]
    plates: tuple[Plate, ...]
    runs: tuple[Run, ...]
    batches: tuple[Batch, ...]
    """One a plate: its risk, and whether its pieces are better printed on several."""
    coupon: CouponFirst | None
    """What is printed and measured before the plates; None where nothing hangs on it."""
    parted_why: str
    """Why plates were parted to be ready in time; empty where they were not."""
    clocks: Clocks | None
    """When everything is done; None without a calendar."""
    totals: Totals
    worn_g: float | None
    choice: MaterialChoice
    """Of a material, with what was found against the others."""
    hardware: tuple[HardwareLine, ...]
    cuts: tuple[Cut, ...]
    cost: Cost | None
    cautions: tuple[Caution, ...]

    @property
    def material(self) -> Material:
        """The material that everything is printed in."""
        return self.job.material_named(self.choice.choice)

    @property
    def works_n(self) -> int:
        """How many openings need work by hand."""
        return works_n(self.findings)


def works_n(findings: Iterable[Finding]) -> int:
    """Return how many openings need work by hand."""
    return sum(finding.verdict is Verdict.GO_WITH_WORK for finding in findings)

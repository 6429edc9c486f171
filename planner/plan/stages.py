"""Stages of a plan: read, prepared, sized, laid, scheduled. Each holds facts, and the stage that it was made from.

No stage holds a judgement: findings, verdict, totals and cost come from ``judged``, whatever the plates are.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from typing import Any, TypeVar

from planner.assembly import CloseFit, DrillReach, claims_of
from planner.finding import Finding, Vec3, Verdict
from planner.job import Job, Material, kind_of
from planner.layers import Amount, PartEstimate
from planner.mechanism import Movement
from planner.mesh import Solid
from planner.packing import PackedPlate, Plate
from planner.phrases import moment
from planner.plan.planned_part import PlannedPart
from planner.pose import PoseChoice
from planner.rules import Answers, BoundRules, Checked, Forces, Rule, rules_of, slit_rules
from planner.scale import Scale
from planner.schedule import Batch, Clocks
from planner.size import Sizing, range_rules
from planner.strength import Screened, pressed_bores, screened, strength_rules, with_elements
from planner.supplies import MaterialChoice, suits_findings
from planner.survey import LayerView, Slit, Survey, views_of

T = TypeVar("T")
ASKED_MOST = 16
"""Answers that a stage remembers by what they were asked for: more than a chapter has printers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """A job and its solids as drawn, in mm; a mesh that cannot be read is a hold and no part of the job."""

    job: Job
    solids: Mapping[str, Solid]
    unread: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A job with its solids measured at drawn size, their poses, the scale, and the bound rules."""

    job: Job
    today: date
    solids: Mapping[str, Solid]
    surveys: Mapping[str, Survey]
    poses: Mapping[str, PoseChoice]
    sizing: Sizing
    bound: BoundRules
    findings: tuple[Finding, ...] = ()
    """What was found before any rule was bound: it holds at every scale, on every printer, in every material."""
    gaps_mm: Mapping[tuple[str, str], float | None] = field(default_factory=dict)
    close: tuple[CloseFit, ...] = ()
    """Parts between faces of others, as drawn in place."""
    reach: DrillReach | None = None
    """What measures whether a drill comes at a bore."""
    slits: Mapping[str, Slit | None] = field(default_factory=dict)
    """The narrowest slit in each part, as drawn."""
    uneven: Mapping[str, Survey] = field(default_factory=dict)
    """Surveys of parts that are scaled by three factors, at that size."""
    movement: Movement | None = None
    """How it moves; None where nothing does."""
    moves: tuple[Rule, ...] = ()
    """Rules about movement."""
    strength: tuple[Rule, ...] = ()
    """Rules about the weakest place of every loaded part."""
    screens: tuple[Screened, ...] = ()
    """The loaded parts under their loads; empty where no load is stated, or the rules of before are taken over."""
    forces: Forces = field(default_factory=dict)
    """What bores of loaded parts take under their load cases, by part and bore."""
    as_drawn: tuple[Mapping[str, Solid], Mapping[str, Survey]] | None = None
    """Solids and surveys of the mesh files, where parts are re-bored; None where none is."""
    asked: tuple[Answers, ...] = ()
    """What nobody has stated yet, with what each answer changes."""

    _once: dict[str, Any] = field(default_factory=dict, init=False, repr=False, compare=False)

    def once(self, what: str, made: Callable[[], T]) -> T:
        """Return what follows from this stage alone, made when it is first asked for, however often it is judged."""
        if what not in self._once:
            self._once[what] = made()
        found: T = self._once[what]
        return found

    def once_for(self, what: str, facts: object, made: Callable[[], T]) -> T:
        """Return what follows from this stage and from some facts, made once for each of the facts asked for last.

        A plan is judged up to three times on its way into a chapter, with the same job on the same printers.
        """
        held: list[tuple[object, T]] = self.once(what, list)
        for known, found in held:
            if known == facts:
                return found
        held.append((facts, made()))
        del held[:-ASKED_MOST]
        return held[-1][1]

    def rules_for(self, job: Job, downs: Mapping[str, Vec3], *, cut: bool = True) -> tuple[Rule, ...]:
        """Return the rules of the same meshes for a changed job, such as another printer, or other poses.

        Where no part is ``cut`` under its load, which takes longer than all else, rules of what its bores take are
        among them if they bear what they bear now: loads hang on neither pose nor settings. So are the rules of
        strength as they stand where no part can be stronger by the change: sizes that they forbid stay forbidden.
        """
        if cut:
            return self.bound_for(job, downs).rules
        if _borne(job) == _borne(self.job):
            at_best = self.strength if downs == self.downs and _no_stronger(job, self.job) else ()
            return self._bound(job, downs, at_best, self.forces).rules
        return tuple(rule for rule in self._bound(job, downs, (), {}).rules if not kind_of(rule.rule).of_load)

    def bound_for(self, job: Job, downs: Mapping[str, Vec3], *, ranges: bool = False) -> BoundRules:
        """Return the same with what was guessed, and where ``ranges``, with what each rule rests on."""
        return self._bound(job, downs, *self.strength_for(job, downs), ranges=ranges)

    def _bound(
        self, job: Job, downs: Mapping[str, Vec3], strength: Sequence[Rule], forces: Forces, *, ranges: bool = False
    ) -> BoundRules:
        """Bind all rules with those of strength, and with what bores take."""
        bound = rules_of(
            job,
            self.surveys,
            downs,
            findings=(*self.findings, *suits_findings(job)),
            gaps_mm=self.gaps_mm,
            uneven=self.uneven,
            views=self.views_in(downs),
            today=self.today,
            asked=self.asked,
            ranges=ranges,
            sizes=(*self.sizing.rules, *self.moves, *strength, *slit_rules(job, self.slits)),
            close=self.close,
            forces=forces,
            reach=self.reach,
        )
        ranged = range_rules(job, self.sizing.percent, self.sizing.ends, bound.rules)
        return replace(bound, rules=(*bound.rules, *ranged))

    def views_in(self, downs: Mapping[str, Vec3]) -> Mapping[str, LayerView | None]:
        """Return what a line can lay of each part in some poses."""
        return self.once_for("views", downs, lambda: views_of(self.solids, downs))

    def strength_for(self, job: Job, downs: Mapping[str, Vec3]) -> tuple[tuple[Rule, ...], Forces]:
        """Return the rules of strength of the same meshes for a changed job, or in other poses, and what bores take."""
        same = _borne(job) == _borne(self.job) and job.settings == self.job.settings and downs == self.downs
        if not self.screens or same:
            return self.strength, self.forces
        claims = claims_of(job, self.surveys).claims
        screens = screened(job, self.solids, self.surveys, claims, self.movement, downs)
        factor = Scale(self.sizing.percent).factor
        solved = with_elements(job, screens, self.solids, self.surveys, factor, before=self.screens)
        return strength_rules(job, solved), pressed_bores(job, screens, claims, self.movement, self.solids)

    @property
    def from_files(self) -> tuple[Mapping[str, Solid], Mapping[str, Survey]]:
        """Solids and surveys of the mesh files, before any re-boring."""
        return self.as_drawn or (self.solids, self.surveys)

    @property
    def downs(self) -> dict[str, Vec3]:
        """The drawn direction of every part that faces the bed."""
        return {name: pose.down for name, pose in self.poses.items()}


def _no_stronger(job: Job, before: Job) -> bool:
    """Return whether parts have no more skin and infill than before: then none is stronger in the same pose."""
    now, then = job.settings, before.settings
    return (
        now.contours_n * now.line_width_mm.value <= then.contours_n * then.line_width_mm.value
        and now.solid_top_mm.value <= then.solid_top_mm.value
        and now.solid_bottom_mm.value <= then.solid_bottom_mm.value
        and now.infill_percent.value <= then.infill_percent.value
    )


def _borne(job: Job) -> tuple[object, ...]:
    """Return what of a job the loads on its parts hang on."""
    return job.use, job.material, job.materials, job.parts, job.hardware, job.joints, job.limits


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """Every part at size, in its pose and estimated in the chosen material; ``fit`` is ``check`` at that scale."""

    ready: Prepared
    choice: MaterialChoice
    material: Material
    parts: tuple[PlannedPart, ...]
    fit: Checked

    @property
    def percent(self) -> float:
        """The scale of the job."""
        return self.ready.sizing.percent

    @property
    def factor(self) -> float:
        """The scale as a factor, 1.0 for the drawn size."""
        return Scale(self.percent).factor

    @property
    def estimates(self) -> dict[str, PartEstimate]:
        """Estimates by part, on the job's own printer."""
        return {p.part.name: p.estimate for p in self.parts if p.estimate is not None}

    @property
    def works_n(self) -> int:
        """How many openings need work by hand."""
        return sum(finding.verdict is Verdict.GO_WITH_WORK for finding in self.fit.findings)


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """All copies on proved plates; ``missing`` says what found no place, or could not keep a rule of the job."""

    sized: Sized
    packed: tuple[PackedPlate, ...]
    missing: tuple[Finding, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CouponFirst:
    """The coupon of a job's printer, material and settings, printed before its plates.

    ``why`` says what it decides. ``start`` and ``end`` are its run, ``last_start`` the latest that day, ``measured``
    when plates may begin; all None without a calendar, or where there is no time for it. Totals leave its grams out.
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
        return f"the coupon on {self.printer}, {moment(self.start)}{before}; measure it before any plate"


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """What is behind a plan of what is left: plates with the pieces that stay, and the grams used by colour."""

    plates: tuple[Plate, ...] = ()
    used_g: Mapping[str, float] = field(default_factory=dict)

    def __add__(self, more: Printed) -> Printed:
        """Return both together."""
        colours = dict.fromkeys([*self.used_g, *more.used_g])
        used = {colour: self.used_g.get(colour, 0.0) + more.used_g.get(colour, 0.0) for colour in colours}
        return Printed(plates=(*self.plates, *more.plates), used_g=used)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheduled:
    """The plates to print, each on its printer, with their dates: the last stage.

    ``job`` is the job with the calendar that the plates run by.
    """

    laid: Laid
    job: Job
    plates: tuple[Plate, ...]
    batches: tuple[Batch, ...]
    """One a plate: its risk, and whether its pieces are better printed on several."""
    clocks: Clocks | None
    """When everything is done; None without a calendar."""
    coupon: CouponFirst | None = None
    """What is printed and measured before the plates; None where nothing hangs on it."""
    parted_why: str = ""
    """Why plates were parted to be ready in time; empty where they were not."""
    printed: Printed = field(default_factory=Printed)

    @property
    def sized(self) -> Sized:
        """The parts on the plates."""
        return self.laid.sized

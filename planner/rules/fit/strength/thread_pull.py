"""``strength.pullout``: whether a load along its axis pulls a screw out of its pilot, or an insert out of its bore.

A screening number, as ``strength.bore`` is: it counts the shear strength between layers at its low end, that what
lasts leaves of it, and is never worse than a hold. What the edge of a part that is levered off adds (prying) is in the
pull; what pulls its boss off is not.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.assembly import Claim, stock_of
from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import Job, StockSize
from planner.rules.chosen_material import chosen_material
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.strength.bore_force import BoreForce, feared_pull, known_pull
from planner.rules.fit.strength.head_press import head_rules
from planner.rules.fit.strength.lasting_strength import GoShare, go_share
from planner.rules.fit.strength.thread_hold import ThreadHold
from planner.rules.rule import ConstantFinding, Rule, at_most
from planner.sourced import Sourced
from planner.survey import Bore

CHAPMAN = "threads sheared off: Chapman et al. 1996, doi 10.1115/1.2796022, its factor from memory"
INSERTS = "inserts as threads of no depth (Chapman et al. 1996, doi 10.1115/1.2796022): common practice, no source"
REMEDY = (
    "a longer or thicker screw, an insert, or a nut behind; then test it on the bench with a proof load, and watch "
    "that place"
)
SOLID_PERCENT = 99.9
"""Infill of so much is solid."""
POINT_PITCHES = 2.0
"""A machine screw's end has so many pitches of incomplete thread at most (ISO 4753, from memory)."""
POINT_DIAMETERS = 1.0
"""A wood screw's point is about as long as it is thick; from memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadPull:
    """What one screw or insert holds against the greatest pull on it."""

    part: str
    hardware: str
    bore: Bore
    hold: ThreadHold
    pull: BoreForce | None
    feared: BoreForce | None
    shear_mpa: Sourced
    go: GoShare
    rule: str = "strength.pullout"

    @property
    def feature(self) -> str:
        """The bore."""
        return self.bore.id

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which a pull takes what is go of the strength; none where nothing is."""
        most_mpa = self.go.share * self.shear_mpa.low
        if most_mpa <= 0.0:
            return ()
        pulls = [one.pull_n for one in (self.pull, self.feared) if one]
        return tuple(sorted({turn for pull_n in pulls for turn in self.hold.turns(pull_n / most_mpa)}))

    def at(self, s: float) -> Finding:
        """Judge the pull at a scale; never worse than a hold."""
        held_n = self.shear_mpa.low * self.hold.area_mm2(s)
        if held_n <= 0.0:
            return self._nothing_holds(s)
        limit = self.go.percent
        bears = self.pull is None or at_most(100.0 * self.pull.pull_n / held_n, limit)
        open_ = self.feared is not None and not at_most(100.0 * self.feared.pull_n / held_n, limit)
        judged = self.feared if self.feared and (self.pull is None or (bears and open_)) else self.pull
        assert judged is not None
        found = self._told(judged, held_n, self.hold.engaged_mm(s))
        if bears and not open_:
            return found
        proof = f"What does a proof load pull on {found.feature} of {self.part} do to it{self.go.proof}?"
        return replace(
            found,
            verdict=Verdict.HOLD,
            remedy=f"say which way the load acts (see the question); else {REMEDY}" if judged.asks else REMEDY,
            question=judged.asks or proof,
            caution=self._caution,
        )

    def _told(self, pull: BoreForce, held_n: float, engaged_mm: float) -> Finding:
        """Say which share of what holds a pull takes, as if it passed."""
        measured, limit = 100.0 * pull.pull_n / held_n, self.go.percent
        share, most = told_apart(measured, limit, 0)
        where = f"{self.hardware} in {self.bore.id}"
        threads = INSERTS if self.hold.insert_mm else CHAPMAN
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=where,
            verdict=Verdict.GO,
            measured=measured,
            limit=limit,
            unit="%",
            at_mm=self.bore.centre_mm,
            why=f"{pull.pull_n:.3g} N {'may pull' if pull.asks else 'pull'} {where} out of the part, {pull.said}. It "
            f"tears out at {held_n:.3g} N, with {engaged_mm:.1f} mm of it in plastic of {self.shear_mpa.low:g} MPa "
            f"shear strength between layers (low end). The load is {share} % of that; up to {most} % is go"
            f"{self.go.why}",
            source=f"{threads}; strength: {self.shear_mpa.source}; limit: {self.go.source}",
            evidence=Evidence.GUESSED if pull.asks else Evidence.MEASURED,
        )

    @property
    def _caution(self) -> str:
        """What may happen."""
        return (
            f"{self.hardware} may come out of {self.part}. This is a screening number: test the part with load before "
            "use."
        )

    def _nothing_holds(self, s: float) -> Finding:
        """Hold a screw that has no thread in the plastic at a scale."""
        where = f"{self.hardware} in {self.bore.id}"
        clear = self.hold.bore_mm * s >= self.hold.outside_mm
        cause = (
            "its bore is as wide as its thread" if clear else "no length is sold of which more than the point is in it"
        )
        return Finding(
            rule=self.rule,
            part=self.part,
            feature=where,
            verdict=Verdict.HOLD,
            at_mm=self.bore.centre_mm,
            why=f"a load pulls along {where}, and nothing of it holds there: {cause}",
            source=CHAPMAN,
            remedy="a narrower pilot, or a thicker screw"
            if clear
            else f"state stack_mm of {self.hardware} as it is; else {REMEDY}",
            question=f"What holds {where} of {self.part} against a pull?",
            caution=self._caution,
        )


def pull_rules(case: PartCase) -> list[Rule]:
    """Return the rules of one loaded part whose screws or inserts are pulled, and of the heads that press on it.

    None where nothing pulls, or is known.
    """
    material = chosen_material(case.job)
    if case.job.use.carried_n is None or material is None or not case.loaded:
        return []
    return [*_pulled(case, material.shear_mpa, go_share(case.job, material)), *head_rules(case)]


def _pulled(case: PartCase, shear_mpa: Sourced, go: GoShare) -> Iterator[Rule]:
    """Yield a rule for each pulled screw or insert; a hold where its length is not known."""
    for claim in case.claims:
        forces = case.forces.get(claim.bore.id, ())
        pull = known_pull(forces)
        feared = feared_pull(forces, pull.pull_n if pull else 0.0)
        if (pull or feared) is None or not (claim.fit == "pilot" or claim.hardware.kind == "insert"):
            continue
        hold = hold_of(case.job, claim)
        if hold is None:
            yield ConstantFinding(finding=_unknown(claim), feature=claim.bore.id)
            continue
        yield ThreadPull(
            part=claim.part,
            hardware=claim.hardware.name,
            bore=claim.bore,
            hold=hold,
            pull=pull,
            feared=feared,
            shear_mpa=shear_mpa,
            go=go,
        )


def hold_of(job: Job, claim: Claim) -> ThreadHold | None:
    """Return what holds in a bore; None where the length, or the size, is not known."""
    hardware = claim.hardware
    stock = stock_of(job.tables, hardware.kind, hardware.diameter_mm)
    if hardware.kind == "insert":
        return _insert(claim, stock)
    if stock is None or stock.root_mm is None or not stock.lengths_mm or hardware.stack_mm is None:
        return None
    if hardware.stack_mm < claim.bore.depth_mm - 1e-9 and len(hardware.joins) > 1:
        return None
    root_mm, pitch_mm = stock.root_mm.high, stock.pitch_mm.value if stock.pitch_mm else None
    shell_mm = root_mm + 2.0 * job.settings.contours_n * job.settings.line_width_mm.value
    solid = job.settings.infill_percent.value >= SOLID_PERCENT
    machine = hardware.kind == "machine-screw"
    washers_n = hardware.washers if hardware.washers is not None else int(machine)
    thick_mm = stock.washer_thick_mm.value if stock.washer_thick_mm else 0.0
    point_mm = POINT_DIAMETERS * hardware.diameter_mm
    return ThreadHold(
        outside_mm=hardware.diameter_mm if solid else min(hardware.diameter_mm, shell_mm),
        root_mm=root_mm,
        pitch_mm=pitch_mm,
        bore_mm=claim.bore.drawn_diameter_mm,
        depth_mm=claim.bore.depth_mm,
        lengths_mm=stock.lengths_mm,
        stack_mm=hardware.stack_mm,
        beside_mm=washers_n * thick_mm,
        point_mm=POINT_PITCHES * pitch_mm if machine and pitch_mm else point_mm,
    )


def _insert(claim: Claim, stock: StockSize | None) -> ThreadHold | None:
    """Return what an insert holds; None where its outside or its length is not known."""
    size_mm = claim.hardware.size_mm or (stock.outside_mm.low if stock and stock.outside_mm else None)
    if size_mm is None or stock is None or stock.width_mm is None:
        return None
    return ThreadHold(
        outside_mm=size_mm,
        root_mm=size_mm,
        pitch_mm=None,
        bore_mm=claim.bore.drawn_diameter_mm,
        depth_mm=claim.bore.depth_mm,
        lengths_mm=(),
        stack_mm=claim.bore.depth_mm,
        beside_mm=0.0,
        point_mm=0.0,
        insert_mm=stock.width_mm.low,
    )


def _unknown(claim: Claim) -> Finding:
    """Hold a pulled screw or insert of which nobody knows how far it reaches in."""
    name, bore, part = claim.hardware.name, claim.bore.id, claim.part
    insert = claim.hardware.kind == "insert"
    return Finding(
        rule="strength.pullout",
        part=part,
        feature=f"{name} in {bore}",
        verdict=Verdict.HOLD,
        at_mm=claim.bore.centre_mm,
        why=f"a load pulls along {name} in {bore}, and how far it reaches in is not known",
        source="job file against the survey of the mesh",
        remedy="take an insert of the tables, or a nut"
        if insert
        else f"state stack_mm of {name}, all that it goes through",
        question=f"How far does {name} reach into {bore} of {part}?",
        caution=f"{name} may come out of {part}: test the part with load before use.",
    )

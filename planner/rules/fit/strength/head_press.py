"""``strength.head``: what a load presses a screw's head, or the washer under it, into the plastic.

A screening number, as ``strength.bore`` is: the pressure on the ring under the head, or the shear about the plug that
it would punch through, against the low strength; over what is go it is a hold, and never a no-go. What the edge of a
part that is levered off adds to the load is in it; how tight a screw was driven is not.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from planner.assembly import ends_of, head_mm, stock_of
from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import Job, Material
from planner.pose import UPRIGHT_COS, uprightness
from planner.rules.chosen_material import chosen_material
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.strength.bore_force import BoreForce, feared_pull, known_pull
from planner.rules.fit.strength.lasting_strength import GoShare, go_share
from planner.rules.rule import Rule, at_most
from planner.survey import Bore

SOURCE = "pressure over the ring under a head, and shear about its plug (textbook)"
SCREWS = ("machine-screw", "wood-screw")
REMEDY = (
    "a wider washer under the head, more matter under it, or an edge that reaches farther beyond the screw; then test "
    "it on the bench with a proof load, and watch that place"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadPress:
    """What one head presses against the greatest pull on its screw. Lengths as drawn, the hardware as bought."""

    part: str
    hardware: str
    bore: Bore
    pull: BoreForce | None
    feared: BoreForce | None
    wide_mm: float
    """Of the head, or of the washer under it."""
    need_mm: float
    """What the bore is opened to at least."""
    strength_mpa: float
    shear_mpa: float
    strength_source: str
    go: GoShare
    rule: str = "strength.head"

    @property
    def feature(self) -> str:
        """The bore."""
        return self.bore.id

    def ring_mm2(self, s: float) -> float:
        """Return what of the head lies on plastic at a scale; 0 where it is no wider than the bore."""
        open_mm = max(self.bore.drawn_diameter_mm * s, self.need_mm)
        return max(math.pi / 4.0 * (self.wide_mm**2 - open_mm**2), 0.0)

    def shares(self, pull_n: float, s: float) -> tuple[float, float]:
        """Return which share of its strength a pull takes: the ring under the head, and about the plug."""
        ring_mm2, plug_mm2 = self.ring_mm2(s), math.pi * self.wide_mm * self.bore.depth_mm * s
        pressed = pull_n / (ring_mm2 * self.strength_mpa) if ring_mm2 > 0.0 else math.inf
        return pressed, pull_n / (plug_mm2 * self.shear_mpa)

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which a pull takes what is go of either strength, and where the bore clears it."""
        drawn_mm, found = self.bore.drawn_diameter_mm, {self.wide_mm / self.bore.drawn_diameter_mm}
        for pull_n in (one.pull_n for one in (self.pull, self.feared) if one and self.go.share > 0.0):
            found.add(pull_n / (math.pi * self.wide_mm * self.bore.depth_mm * self.shear_mpa * self.go.share))
            open_mm2 = self.wide_mm**2 - 4.0 / math.pi * pull_n / (self.strength_mpa * self.go.share)
            found |= {math.sqrt(open_mm2) / drawn_mm} if open_mm2 > 0.0 else set()
        return tuple(sorted(found))

    def at(self, s: float) -> Finding:
        """Judge the pull at a scale; never worse than a hold."""
        limit = self.go.percent
        bears = self.pull is None or at_most(100.0 * max(self.shares(self.pull.pull_n, s)), limit)
        open_ = self.feared is not None and not at_most(100.0 * max(self.shares(self.feared.pull_n, s)), limit)
        judged = self.feared if self.feared and (self.pull is None or (bears and open_)) else self.pull
        assert judged is not None
        found = self._told(judged, s)
        if bears and not open_:
            return found
        return replace(
            found,
            verdict=Verdict.HOLD,
            remedy=f"answer the question; else {REMEDY}" if judged.asks else REMEDY,
            question=judged.asks or f"What does a proof load do to {self.part} under {self.hardware}{self.go.proof}?",
            caution=f"the head of {self.hardware} may pull through {self.part}. This is a screening number: test the "
            "part with load before use.",
        )

    def _told(self, pull: BoreForce, s: float) -> Finding:
        """Say which share a pull takes, as if it passed."""
        pressed, punched = self.shares(pull.pull_n, s)
        where, limit = f"{self.hardware} in {self.bore.id}", self.go.percent
        found = Finding(
            rule=self.rule,
            part=self.part,
            feature=where,
            verdict=Verdict.GO,
            limit=limit,
            unit="%",
            at_mm=self.bore.centre_mm,
            why=f"{pull.pull_n:.3g} N {'may pull' if pull.asks else 'pull'} on {where}, {pull.said}, and its head, "
            f"{self.wide_mm:g} mm wide, is no wider than the bore: nothing holds it",
            source=f"{SOURCE}; strength: {self.strength_source}; limit: {self.go.source}",
            evidence=Evidence.GUESSED if pull.asks else Evidence.MEASURED,
        )
        if self.ring_mm2(s) <= 0.0:
            return found
        share, most = told_apart(100.0 * max(pressed, punched), limit, 0)
        how = (
            f"press {pull.pull_n / self.ring_mm2(s):.1f} MPa on the ring under its head"
            if pressed >= punched
            else f"shear its plug, {self.bore.depth_mm * s:.1f} mm deep"
        )
        return replace(
            found,
            measured=100.0 * max(pressed, punched),
            why=f"{pull.pull_n:.3g} N {'may pull' if pull.asks else 'pull'} on {where}, {pull.said}. They {how}, "
            f"{self.wide_mm:g} mm wide. That is {share} % of the low strength; up to {most} % is go{self.go.why}",
        )


def head_rules(case: PartCase) -> list[Rule]:
    """Return the rules of one loaded part on which screws' heads press; none where nothing pulls, or is known."""
    material = chosen_material(case.job)
    if case.job.use.carried_n is None or material is None or not case.loaded:
        return []
    return list(_pressed(case, case.job, material))


def _pressed(case: PartCase, job: Job, material: Material) -> Iterator[Rule]:
    """Yield a rule for each screw that goes through the part and is pulled."""
    for claim in case.claims:
        forces = case.forces.get(claim.bore.id, ())
        pull = known_pull(forces)
        feared = feared_pull(forces, pull.pull_n if pull else 0.0)
        ends = ends_of(claim.hardware, claim.fit, job.limits, job.tables)
        if (pull or feared) is None or claim.hardware.kind not in SCREWS or claim.fit in ("pilot", "turning"):
            continue
        stock = stock_of(job.tables, claim.hardware.kind, claim.hardware.diameter_mm)
        machine = claim.hardware.kind == "machine-screw"
        washers_n = claim.hardware.washers if claim.hardware.washers is not None else int(machine)
        washer_mm = stock.washer_mm.low if stock and stock.washer_mm and washers_n else 0.0
        upright = uprightness(claim.bore.axis, case.down) >= UPRIGHT_COS
        strength = material.strength_across_layers_mpa if upright else material.strength_along_mpa
        yield HeadPress(
            part=claim.part,
            hardware=claim.hardware.name,
            bore=claim.bore,
            pull=pull,
            feared=feared,
            wide_mm=max(head_mm(claim.hardware.diameter_mm), washer_mm),
            need_mm=ends[0] if ends else 0.0,
            strength_mpa=strength.low,
            shear_mpa=material.shear_mpa.low,
            strength_source=strength.source,
            go=go_share(job, material),
        )

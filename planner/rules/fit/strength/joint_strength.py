"""``strength.bore`` and ``strength.pin``: stress at a joint of a loaded part, as a share of the material's strength.

A screening number and no promise: the whole load is put on every joint, or what a lever or a cord makes of it there,
where that is more; notches and wear stay out. Over half of the low strength, or less where heat, time or
repetition are stated, it is a hold, and never a no-go: nobody said that a joint takes the whole load.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.assembly import ends_of
from planner.digits import told_apart
from planner.finding import Evidence, Finding, Vec3, Verdict
from planner.pose import UPRIGHT_COS, uprightness
from planner.rules.chosen_material import chosen_material
from planner.rules.fit.part_case import PartCase
from planner.rules.fit.strength.bore_force import PIN, BoreForce, feared_force, known_force
from planner.rules.fit.strength.joint_stress import (
    SHEAR_SHARE,
    bearing_mpa,
    net_section_mpa,
    pin_bending_mpa,
    pin_shear_mpa,
    tear_out_mpa,
)
from planner.rules.fit.strength.lasting_strength import GoShare, go_share
from planner.rules.rule import Rule, at_most
from planner.sourced import Sourced
from planner.survey import Bore

SAY_WHAT = "say where the load acts and what holds the part (see the question)"
REMEDY = (
    "a wider edge there, wider hardware or a larger scale; then test it on the bench with a proof load, and watch that "
    "place"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoreStress:
    """The wall about one bore under the greatest force on it. Lengths as drawn, the hardware as bought."""

    part: str
    feature: str
    hardware: str
    bore: Bore
    force: BoreForce
    hardware_mm: float
    need_mm: float
    strength_mpa: Sourced
    along: bool
    go: GoShare
    feared: BoreForce | None = None
    """What more there may be, as far as nobody has ruled it out."""
    rule: str = "strength.bore"

    def stresses_mpa(self, s: float) -> dict[str, float]:
        """Return each stress at a scale, shear as the tension that is as bad (von Mises)."""
        drawn = self.bore.drawn_diameter_mm
        deep, beside, force_n = self.bore.depth_mm * s, self.bore.edge_wall_mm, self.force.force_n
        found = {"bearing": bearing_mpa(force_n, self.hardware_mm, deep)}
        if beside is not None:
            left = max((beside + drawn / 2) * s - max(drawn * s, self.need_mm) / 2, 1e-6)
            found["net section"] = net_section_mpa(force_n, left, deep)
            found["tear-out"] = tear_out_mpa(force_n, left, deep) / SHEAR_SHARE
        return found

    def turns(self) -> tuple[float, ...]:
        """Return the scales at which each stress takes what is go of the strength; none where nothing is."""
        if self.go.share <= 0.0:
            return ()
        return tuple(sorted({turn for force in _both(self.force, self.feared) for turn in self._turns(force.force_n)}))

    def _turns(self, force_n: float) -> list[float]:
        """Return the same under one force."""
        most_mpa = self.go.share * self.strength_mpa.low
        drawn, deep, beside = self.bore.drawn_diameter_mm, self.bore.depth_mm, self.bore.edge_wall_mm
        found = [force_n / (self.hardware_mm * deep * most_mpa)]
        wide = 0.0 if beside is None else beside + drawn / 2
        for times in (1.0, 1.0 / SHEAR_SHARE) if beside is not None and beside > 0.0 else ():
            both = times * force_n / (2.0 * deep * most_mpa)  # what is left of the edge, times the scale
            held, grown = self.need_mm / 2, math.sqrt(both / (wide - drawn / 2))
            opened = (held + math.sqrt(held * held + 4.0 * wide * both)) / (2.0 * wide)
            found.append(opened if opened * drawn <= self.need_mm else grown)
        return found

    def at(self, s: float) -> Finding:
        """Judge the worst stress at a scale; never worse than a hold."""
        stresses = self.stresses_mpa(s)
        worst = max(stresses, key=lambda name: stresses[name])
        ratio = stresses[worst] / max(self.stresses_mpa(1.0).values())
        return _finding(
            self.rule,
            self.part,
            f"{self.hardware} in {self.bore.id}",
            worst,
            stresses[worst],
            ratio,
            (self.force, self.feared),
            self.strength_mpa,
            self.along,
            self.go,
            self.bore.centre_mm,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PinStress:
    """A printed pin under the greatest force on it: a round bar of its least thickness and whole length, as drawn."""

    part: str
    force: BoreForce
    pin_mm: float
    long_mm: float
    strength_mpa: Sourced
    along: bool
    go: GoShare
    feared: BoreForce | None = None
    """What more there may be, as far as nobody has ruled it out."""
    rule: str = "strength.pin"
    feature: str = "pin"

    def stresses_mpa(self, s: float) -> dict[str, float]:
        """Return each stress at a scale, shear as the tension that is as bad (von Mises)."""
        d, long, force_n = self.pin_mm * s, self.long_mm * s, self.force.force_n
        shear = pin_shear_mpa(force_n, d) / SHEAR_SHARE
        return {"shear": shear, "bending": pin_bending_mpa(force_n, d, long)}

    def turns(self) -> tuple[float, ...]:
        """Return the scale at which the greatest stress takes what is go: all stresses go with one over its square."""
        if self.go.share <= 0.0:
            return ()
        most_mpa = self.go.share * self.strength_mpa.low
        per_n = max(self.stresses_mpa(1.0).values()) / self.force.force_n / most_mpa
        return tuple(math.sqrt(per_n * force.force_n) for force in _both(self.force, self.feared))

    def at(self, s: float) -> Finding:
        """Judge the worst stress at a scale; never worse than a hold."""
        stresses = self.stresses_mpa(s)
        worst = max(stresses, key=lambda name: stresses[name])
        return _finding(
            self.rule,
            self.part,
            self.feature,
            worst,
            stresses[worst],
            1.0 / s**2,
            (self.force, self.feared),
            self.strength_mpa,
            self.along,
            self.go,
            None,
        )


def _finding(
    rule: str,
    part: str,
    feature: str,
    stress: str,
    value_mpa: float,
    ratio: float,
    forces: tuple[BoreForce, BoreForce | None],
    strength_mpa: Sourced,
    along: bool,
    go: GoShare,
    at_mm: Vec3 | None,
) -> Finding:
    """Say what a joint bears, as a share of the strength; a force that nobody has ruled out may make it a hold."""
    force, feared = forces
    measured, limit = 100.0 * value_mpa / strength_mpa.low, go.percent
    share, most = told_apart(measured, limit, 0)
    way = "along the layers" if along else "across the layers"
    bears = at_most(measured, limit)
    fears = feared and (feared.endless or not at_most(_under(feared, force, measured), limit))
    asks = feared.asks if bears and feared and fears else ""
    passes = bears and not asks
    where = f" {force.said}" if force.said else " alone"
    why = (
        f"{_newtons(force)} N on {feature}{where} cause {value_mpa:.1f} MPa ({stress}). The load takes {share} % of "
        f"the low strength, {strength_mpa.low:g} MPa {way}; up to {most} % is go{go.why}. The stress is {ratio:.2f} "
        "times that at 100 %"
    )
    if feared and asks:
        why += _fear(feared, force, measured)
    breaks = f"{feature} of {part} may break. This is a screening number: test the part with load before use."
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=Verdict.GO if passes else Verdict.HOLD,
        measured=measured,
        limit=limit,
        unit="%",
        at_mm=at_mm,
        why=why,
        source=f"pin and lug formulas (textbook); strength: {strength_mpa.source}; limit: {go.source}",
        remedy="" if passes else f"{SAY_WHAT}; else {REMEDY}" if asks else REMEDY,
        question=""
        if passes
        else asks or f"Does {feature} of {part} take the whole load, and what does a proof load do to it{go.proof}?",
        caution=(feared.caution if feared else "") if passes else breaks,
        evidence=Evidence.GUESSED if asks else Evidence.MEASURED,
        question_id=_asked_as(feared, part) if asks else "",
    )


def _asked_as(feared: BoreForce | None, part: str) -> str:
    """Return the id of the question about a feared force; empty where no answer settles it."""
    if not feared or feared.endless:
        return ""
    return f"{'lever' if feared.caution else 'load'}-{part}"


def _fear(feared: BoreForce, force: BoreForce, measured: float) -> str:
    """Say what else a joint may have to take, and why its share under that is not known or too much."""
    if feared.endless:
        return f", but {feared.said}"
    more = f"{_under(feared, force, measured):.0f} %"
    return f"; it may take {_newtons(feared)} N {feared.said}, which is {more}"


def _both(force: BoreForce, feared: BoreForce | None) -> tuple[BoreForce, ...]:
    """Return the forces at which a verdict may turn."""
    return (force,) if feared is None or feared.endless else (force, feared)


def _under(feared: BoreForce, force: BoreForce, measured: float) -> float:
    """Return a share under another force: all stresses grow with it."""
    return measured * (feared.force_n / force.force_n)


def _newtons(force: BoreForce) -> str:
    """Write a force: as stated, or to three digits where it was worked out."""
    return f"{force.force_n:.3g}" if force.said else f"{force.force_n:g}"


def joint_rules(case: PartCase) -> list[Rule]:
    """Return the stress rules of one loaded part; none where the job gives no load."""
    job, part, survey, down = case.job, case.part, case.survey, case.down
    load, material = job.use.carried_n, chosen_material(job)
    if load is None or material is None or not case.loaded:
        return []
    rules, go = list[Rule](), go_share(job, material)
    for claim in case.claims:
        ends = ends_of(claim.hardware, claim.fit, job.limits, job.tables)
        if ends is None or claim.fit == "pilot":  # what pulls a screw out: see thread_pull
            continue
        forces = case.forces.get(claim.bore.id, ())
        force = known_force(forces, load)
        upright = uprightness(claim.bore.axis, down) >= UPRIGHT_COS
        rules.append(
            BoreStress(
                part=part.name,
                feature=claim.bore.id,
                hardware=claim.hardware.name,
                bore=claim.bore,
                force=force,
                feared=feared_force(forces, force.force_n),
                hardware_mm=claim.hardware.seated_mm,
                need_mm=ends[0],
                strength_mpa=material.strength_along_mpa if upright else material.strength_across_layers_mpa,
                along=upright,
                go=go,
            )
        )
    if part.duty == "pin":
        thin, _, long = sorted(survey.size_mm)
        axis = tuple(float(size == max(survey.size_mm)) for size in survey.size_mm)
        forces = case.forces.get(PIN, ())
        force = known_force(forces, load)
        lies = uprightness((axis[0], axis[1], axis[2]), down) < UPRIGHT_COS
        rules.append(
            PinStress(
                part=part.name,
                force=force,
                feared=feared_force(forces, force.force_n),
                pin_mm=thin,
                long_mm=long,
                strength_mpa=material.strength_along_mpa if lies else material.strength_across_layers_mpa,
                along=lies,
                go=go,
            )
        )
    return rules

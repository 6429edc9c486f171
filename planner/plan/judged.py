"""Judged: everything that is said about a stage, whatever its plates are."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from planner.finding import Evidence, Finding
from planner.job import Job, kind_of
from planner.layers import ZERO
from planner.plan.changed_job import proved_remedies
from planner.plan.dates.date_findings import timing_findings
from planner.plan.judged_per_printer import fit_per_printer, laid_past_zones
from planner.plan.layered_remedies import layered_remedies
from planner.plan.plan_record import Plan, Totals
from planner.plan.plates.plate_sums import NO_PLATE, costed, summed
from planner.plan.rebore_proof import what_widens
from planner.plan.settings_at_size import settings_on_plates
from planner.plan.spools_left import spools_left
from planner.plan.stages import Scheduled, Sized
from planner.rules import BoundRules, Checked, lifted
from planner.size import part_window, window
from planner.supplies import (
    built,
    cautions,
    mass_findings,
    worn_g,
)


def judged(stage: Scheduled) -> Plan:
    """Return the plan that a stage makes: findings, verdict, questions, windows, what is bought, totals and cost.

    Every plan is judged here: a first one, what is left after a failure, and one on a calendar with other jobs.
    """
    sized, job = stage.sized, stage.job
    ready, percent = sized.ready, sized.percent
    rules = ready.bound.every
    fit = _fit_on_plates(stage)
    device = built(job, sized.factor, fit.findings)
    printed_g = _printed_g(sized)
    worn = None if printed_g is None else worn_g(printed_g, device.hardware, device.cuts)
    others = (
        *settings_on_plates(sized, job, stage.plates),
        *spools_left(stage),
        *mass_findings(job, worn, [] if worn is None or printed_g is None else _ends_g(sized, worn, printed_g)),
        *stage.laid.missing,
        *timing_findings(job, stage.clocks, _sooner(stage)),
    )
    whole = fit.with_findings((*fit.findings, *(_rests(lifted(finding, job.overrides)) for finding in others)))
    findings = whole.findings
    over = bool(stage.printed.plates) and not stage.plates
    totals = summed(stage.plates, "nothing is left to print" if over else NO_PLATE)
    spent = Totals(duration_s=ZERO, mass_g=ZERO) if over else totals  # what is bought still costs
    return Plan(
        stage=stage,
        verdict=whole.verdict,
        findings=findings,
        questions=whole.questions,
        headline=whole.headline,
        window=ready.once("window", lambda: window(rules, percent)),
        part_windows=ready.once("parts", lambda: tuple(part_window(rules, percent, part.name) for part in job.parts)),
        widenings=ready.once("widenings", lambda: what_widens(ready)),
        remedies=layered_remedies(
            sized, stage.plates, findings, ready.once("remedies", lambda: proved_remedies(ready))
        ),
        totals=totals,
        worn_g=worn,
        built=device,
        cost=costed(job, sized.material, stage.plates, spent, device.hardware, device.cuts),
        cautions=cautions(job, sized.material, percent, work=any(f.verdict == "go-with-work" for f in findings)),
    )


def _ends_g(sized: Sized, worn: float, printed_g: float) -> list[float]:
    """Return the worn mass at both ends of the material's density."""
    density = sized.material.density_g_cm3
    return [worn + printed_g * (end / density.value - 1.0) for end in (density.low, density.high)]


def _sooner(stage: Scheduled) -> timedelta:
    """Return how much sooner all plates may be done, by the low end of their durations."""
    times = [plate.duration_s for plate in stage.plates if plate.duration_s is not None]
    return timedelta(seconds=sum(each.value - each.low for each in times))


def _rests(finding: Finding) -> Finding:
    """Return a finding of no rule of fit with what it rests on."""
    return replace(finding, evidence=Evidence.STATED) if kind_of(finding.rule).of_job else finding


def _fit_on_plates(stage: Scheduled) -> Checked:
    """Return the answers of the rules of fit on the printers and places that all plates have, printed ones too."""
    ready, plates = stage.sized.ready, (*stage.plates, *stage.printed.plates)

    def bound_on(other: Job) -> BoundRules:
        return ready.once_for("bound on", other, lambda: ready.bound_for(other, ready.downs, ranges=True))

    there = fit_per_printer(stage.job, stage.sized.fit, plates, bound_on)
    return laid_past_zones(stage.job, there, plates)


def _printed_g(sized: Sized) -> float | None:
    """Return the grams of all printed parts that are worn; None where one of them cannot be weighed."""
    grams = [(part.mass_g, part.part.count) for part in sized.parts]
    return None if any(g is None for g, _ in grams) else sum((g or 0.0) * n for g, n in grams)

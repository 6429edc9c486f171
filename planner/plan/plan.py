"""The whole job, in order: the flow at a glance."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

from planner.finding import Finding, Verdict, by_severity, worst
from planner.job import Job, Settings
from planner.plan.dates.coupon_first import after_coupon, coupon_first
from planner.plan.dates.plate_dates import dated
from planner.plan.dates.split_for_dates import parted_for_dates
from planner.plan.dates.timed_plan import timing_findings
from planner.plan.judged_per_printer import judged_there, laid_past_zones
from planner.plan.parts.estimates import Estimates
from planner.plan.parts.planned_parts import planned_parts, with_other_ways
from planner.plan.plan_record import Plan, works_n
from planner.plan.plates.finished_plates import by_colour, costed, finished_plates, summed
from planner.plan.plates.packed_plates import packed_plates
from planner.plan.plates.plate_inputs import Makings
from planner.plan.prepare import Prepared, Progress, no_progress, what_widens
from planner.rules import (
    Change,
    Checked,
    check,
    height_findings,
    lifted,
    questions_of,
    settings_findings,
    smallest_change,
)
from planner.size import part_window, tried_rules, window
from planner.supplies import (
    cautions,
    choose_material,
    cut_list,
    hardware_list,
    mass_findings,
    material_findings,
    spool_findings,
    worn_g,
)


def make_plan(ready: Prepared, progress: Progress = no_progress) -> Plan:
    """Plan a prepared job at its scale: every room once, from left to right."""
    job, percent = ready.job, ready.sizing.percent
    checked = check(ready.bound, percent)
    choice = choose_material(job)
    material = job.material_named(choice.choice)
    parts = planned_parts(ready, material, progress)
    estimates = {p.part.name: p.estimate for p in parts if p.estimate is not None}
    settings = settings_findings(
        job, material, surveys=ready.surveys, estimates=estimates, downs=ready.downs, scale=percent / 100.0
    )
    settings += height_findings(
        job, material, surveys=ready.surveys, estimates=estimates, downs=ready.downs, scale=percent / 100.0
    )
    progress("packing plates", 0.6)
    with ThreadPoolExecutor(1) as aside:  # the packing engine works by the clock, and leaves a core free
        packing = aside.submit(packed_plates, job, material, parts)
        parts = with_other_ways(ready, parts, material)
        packed, lost = packing.result()
    first = coupon_first(job, material, checked.findings, ready.today)
    makings = Makings(
        job=after_coupon(job, first),
        material=material,
        parts=parts,
        works_n=works_n(checked.findings),
        estimates=Estimates(job, material, parts),
    )
    split = parted_for_dates(makings, packed)
    progress("finding times", 0.8)
    made = dated(makings, finished_plates(makings, split.plates), split.batches, first.hands_min if first else 0)
    plates, clocks = made.plates, made.clocks
    checked = judged_there(job, checked, plates, lambda other: ready.rules_for(other, ready.downs))
    checked = laid_past_zones(job, checked, plates)
    totals = summed(plates)
    hardware = hardware_list(job, percent / 100.0, checked.findings)
    cuts = cut_list(job, percent / 100.0, checked.findings)
    grams = [p.mass_g for p in parts]
    printed = None if None in grams else sum((g or 0.0) * p.part.count for g, p in zip(grams, parts, strict=True))
    worn = None if printed is None else worn_g(job, printed, hardware, cuts)
    findings = all_findings(
        job,
        checked,
        (
            *settings,
            *material_findings(job, material),
            *spool_findings(job, material, by_colour(plates)),
            *mass_findings(job, worn),
            *lost,
            *timing_findings(job, clocks),
        ),
    )
    cost = costed(job, material, plates, totals, hardware, cuts)
    return Plan(
        job=job,
        scale_percent=percent,
        scale_from=ready.sizing.why,
        verdict=worst(findings),
        findings=findings,
        guesses=checked.guesses,
        questions=questions_of(findings),
        checked_n=checked.checked_n,
        features_n=checked.features_n,
        window=window(ready.bound.rules, percent),
        part_windows=tuple(part_window(ready.bound.rules, percent, part.name) for part in job.parts),
        rules=tried_rules(job, ready.bound.rules, ready.sizing.measures),
        measures=ready.sizing.measures,
        widenings=what_widens(ready),
        parts=parts,
        plates=plates,
        runs=clocks.table.runs if clocks else (),
        batches=made.batches,
        coupon=first,
        parted_why=split.why,
        clocks=clocks,
        totals=totals,
        worn_g=worn,
        choice=choice,
        hardware=hardware,
        cuts=cuts,
        cost=cost,
        cautions=cautions(job, material, percent, work=any(f.verdict == "go-with-work" for f in findings)),
    )


def judged_settings(
    ready: Prepared, progress: Progress = no_progress
) -> tuple[str, tuple[Finding, ...], tuple[Change, ...], Verdict]:
    """Return the material, the findings of the settings rules on the real parts at size, and the smallest change.

    The last is the verdict that the settings get with it; parts are not laid out anew for that.
    """
    job = ready.job
    choice = choose_material(job).choice
    material = job.material_named(choice)
    parts = planned_parts(ready, material, progress)
    estimates = {p.part.name: p.estimate for p in parts if p.estimate is not None}
    scale = ready.sizing.percent / 100.0

    def judge(settings: Settings) -> tuple[Finding, ...]:
        own = replace(job, settings=settings)
        found = settings_findings(
            own, material, surveys=ready.surveys, estimates=estimates, downs=ready.downs, scale=scale
        )
        return by_severity(lifted(finding, job.overrides) for finding in found)

    apart = height_findings(
        job, material, surveys=ready.surveys, estimates=estimates, downs=ready.downs, scale=scale
    )  # the settings' own height moves none of these
    changes, after = smallest_change(job.settings, judge)
    others = tuple(lifted(finding, job.overrides) for finding in apart)
    return (
        choice,
        by_severity((*judge(job.settings), *others)),
        changes,
        max(after, worst(others), key=lambda each: each.severity),
    )


def all_findings(job: Job, checked: Checked, others: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return all findings, worst first, with the holds that people have lifted."""
    return by_severity((*checked.findings, *(lifted(finding, job.overrides) for finding in others)))

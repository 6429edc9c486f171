"""Bind the bore rules: one case for each claim, one edge rule for each bore, one word for each unclaimed bore."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from planner.assembly import CLAMPED, Claim, drill_of, ends_of, stock_of
from planner.finding import Finding, Vec3, Verdict
from planner.job import HandWork, Job, Part
from planner.pose import UPRIGHT_COS, uprightness
from planner.rules.fit.bores.bore_boss import BoreBoss
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.bores.work_done import WorkDone
from planner.rules.fit.bores.worked_bore import WorkedBore
from planner.rules.fit.part_case import LOADED
from planner.rules.of_job.screw_seats.sunk_heads import head_case, sunk_heads
from planner.rules.of_job.unjudged_bores import no_root, possible, unclaimed
from planner.rules.rule import ConstantFinding, Rule
from planner.sourced import Sourced
from planner.survey import Bore, Survey

SAME_STEP_MM = 0.01
"""Steps of a stack that differ by less are one size."""
ONE_SIZE = ("bearing",)
"""Kinds whose bore tells nothing of another size: a bearing fits its shaft."""


def undersize_of(job: Job, axis: Vec3 | None, down: Vec3) -> tuple[Sourced, bool]:
    """Return the printer's undersize for an axis in a pose, and whether it stands upright; lying where unknown."""
    upright = axis is not None and uprightness(axis, down) >= UPRIGHT_COS
    undersize = job.printer.undersize
    return (undersize.upright_mm if upright else undersize.lying_mm), upright


def edge_limit(job: Job, part: Part) -> tuple[float, str]:
    """Return the least wall beside a bore in mm, and its source."""
    lines = job.limits.wall_load_lines if part.judged_duty in LOADED else job.limits.wall_plain_lines
    return lines.value * job.settings.line_width_mm.value, lines.source


def bore_rules(
    job: Job, part: Part, survey: Survey, claims: tuple[Claim, ...], down: Vec3, cords: set[str]
) -> list[Rule]:
    """Return every bore rule of one part; ``cords`` names those that a cord or a seat has taken."""
    rules: list[Rule] = []
    every: dict[str, list[BoreCase]] = {}
    heads = _heads(job, part, survey, claims, down)
    for bore in survey.bores:
        mine = [claim for claim in claims if claim.bore is bore]
        every[bore.id] = _cases(job, part, survey, mine, down) if mine or bore.id in cords else heads.get(bore.id, [])
        rules += _of_bore(job, part, bore, every[bore.id], down)
        rules += [_boss(job, part, claim) for claim in mine if claim.fit == "pilot" and bore.edge_wall_mm is not None]
        if mine and not every[bore.id]:
            rules.append(ConstantFinding(finding=no_root(part, bore, claims), feature=bore.id))
        elif not every[bore.id] and bore.id not in cords:
            rules.append(ConstantFinding(finding=unclaimed(job, part, bore), feature=bore.id))
    rules += _work_rules(job, part, survey, every, cords, down)
    listed = [bore for bore in survey.possible_bores if bore.id not in cords]
    rules += [ConstantFinding(finding=possible(part, bore), feature=bore.id) for bore in listed]
    return rules


def _cases(job: Job, part: Part, survey: Survey, claims: Sequence[Claim], down: Vec3) -> list[BoreCase]:
    """Return the cases of what goes through one bore; none where the hardware's root is unknown."""
    found = []
    for claim in claims:
        if case := _case(job, part, claim, down, survey.stack_of(claim.bore)):
            found.append(case)
    return found


def _of_bore(job: Job, part: Part, bore: Bore, cases: Sequence[BoreCase], down: Vec3) -> Iterator[Rule]:
    """Yield the rules about what is in one bore, and about the wall beside it; a head is never too loose."""
    for case in cases:
        yield BoreTight(case=case)
        if math.isfinite(case.most_mm):
            yield BoreLoose(case=case)
    if bore.edge_wall_mm is not None:
        yield _edge(job, part, bore, cases[0] if cases else None, down)


def work_on(job: Job, part: Part, bore: Bore) -> WorkedBore:
    """Return the work that the job states for a bore, by its name or by the size that it is drawn at."""
    slack = job.limits.bore_match_percent.value / 100.0

    def speaks(work: HandWork) -> bool:
        drawn = work.drawn_mm
        like = drawn is not None and abs(bore.named_mm - drawn) <= slack * drawn + 1e-9
        return work.on_bores and work.part == part.name and (like or bore.id in work.bores)

    mine = tuple(work for work in job.works if speaks(work))
    return WorkedBore(works=mine, bush_wall_mm=job.limits.bush_wall_mm.value)


def _work_rules(
    job: Job, part: Part, survey: Survey, cases: dict[str, list[BoreCase]], channels: set[str], down: Vec3
) -> list[Rule]:
    """Return a rule for each bore that work is stated for, and a hold for work whose bore the part has not."""
    rules: list[Rule] = []
    worked = [(bore, work_on(job, part, bore)) for bore in (*survey.bores, *survey.possible_bores)]
    for bore, work in worked:
        if work.works:
            rules.append(
                WorkDone(
                    part=part.name,
                    feature=bore.id,
                    bore=bore,
                    undersize_mm=undersize_of(job, bore.axis, down)[0].value,
                    work=work,
                    cases=tuple(cases.get(bore.id, ())),
                    told_elsewhere=bore.id in channels,
                    source=job.limits.bush_wall_mm.source,
                )
            )
    done = {id(work) for _, found in worked for work in found.works}
    mine = [work for work in job.works if work.part == part.name and work.on_bores]
    missed = [work for work in mine if id(work) not in done]
    known = {bore.id for bore, _ in worked}
    missed += [w for w in mine if id(w) in done and not set(w.bores) <= known]
    return rules + [ConstantFinding(finding=_no_such_bore(part, work, known), feature=work.told) for work in missed]


def _no_such_bore(part: Part, work: HandWork, known: set[str]) -> Finding:
    """Say that a part has not the bore that some work is stated for."""
    named = ", ".join(sorted(set(work.bores) - known)) or f"of {work.drawn_mm:g} mm"
    return Finding(
        rule="work.missing",
        part=part.name,
        feature=work.told,
        verdict=Verdict.HOLD,
        why=f"the job says {work.told}, and {part.name} has no bore {named}",
        remedy="name its bores as fitwright inspect lists them",
        source="job file against the survey of the mesh",
        question=f"Which bore of {part.name} is meant: {work.told}?",
    )


def _case(job: Job, part: Part, claim: Claim, down: Vec3, stack: Sequence[Bore]) -> BoreCase | None:
    """Return the case of one claim; None where the hardware's root is unknown."""
    hardware, limits = claim.hardware, job.limits
    ends = ends_of(hardware, claim.fit, limits, job.tables)
    drill = drill_of(hardware, claim.fit, limits, job.tables)
    if ends is None or drill is None:
        return None
    undersize, upright = undersize_of(job, claim.bore.axis, down)
    edge, edge_source = edge_limit(job, part)
    tight, loose = _ends_told(job, claim)
    larger, smaller = _other_stock(job, claim)
    return BoreCase(
        part=part.name,
        feature=claim.bore.id,
        hardware=hardware.name,
        fit=claim.fit,
        bore=claim.bore,
        upright=upright,
        undersize_mm=undersize,
        calibrated=job.printer.calibrated,
        need_mm=ends[0],
        most_mm=ends[1],
        drill_mm=drill,
        bush_mm=float("inf") if hardware.kind == "insert" else ends[0] + 2 * limits.bush_wall_mm.value,
        edge_limit_mm=edge,
        drill_most_mm=limits.of("bore.tight", "drill_most_mm").value,
        scrape_mm=limits.of("bore.tight", "scrape_mm").value,
        larger=larger,
        smaller=smaller,
        stepped=len(stack) > 1,
        floored=any(one.drawn_diameter_mm < claim.bore.drawn_diameter_mm - SAME_STEP_MM for one in stack),
        fit_words=tight[0],
        play_words=loose[0],
        clearance_source=tight[1],
        play_source=loose[1],
        edge_source=edge_source,
        work=work_on(job, part, claim.bore),
    )


def _heads(job: Job, part: Part, survey: Survey, claims: Sequence[Claim], down: Vec3) -> Mapping[str, list[BoreCase]]:
    """Return the steps that the heads of screws sink into, by their ids; none where a screw's root is unknown."""
    found = {}
    for step, claim in sunk_heads(job, part, survey, claims):
        if shank := _case(job, part, claim, down, survey.stack_of(step)):
            work = work_on(job, part, step)
            there = replace(shank, feature=step.id, bore=step, floored=True, work=work)
            found[step.id] = [head_case(job, there, claim)]
    return found


def _ends_told(job: Job, claim: Claim) -> tuple[tuple[str, str], tuple[str, str]]:
    """Return what asks for the least bore of a claim and what allows the largest: words and source of each."""
    limits, fit = job.limits, claim.fit
    if fit == "pilot":
        least, most = limits.pilot_least_thread_share, limits.pilot_most_thread_share
        words = f"a screw that holds by {100 * least.value:g} to {100 * most.value:g} % of its thread"
        return (words, most.source), (words, least.source)
    running = {
        "turning": limits.running_turning_mm,
        "sliding": limits.running_sliding_mm,
        "held": limits.running_held_mm,
    }[fit]
    play = {"turning": limits.play_turning_mm, "sliding": limits.play_sliding_mm, "held": limits.play_held_mm}[fit]
    stock = stock_of(job.tables, claim.hardware.kind, claim.hardware.diameter_mm)
    if claim.hardware.kind == CLAMPED and fit != "turning" and stock is not None and stock.bores_mm:
        bore, series = (stock.bores_mm[0], "fine") if fit == "held" else (stock.bores_mm[-1], "coarse")
        return (f"a {fit} {stock.label}", running.source), (f"ISO 273 {series} for {stock.label}", bore.source)
    return (f"a {fit} fit", running.source), (f"a {fit} fit", play.source)


def _other_stock(job: Job, claim: Claim) -> tuple[tuple[Stock, ...], tuple[Stock, ...]]:
    """Return all larger and all smaller stock sizes of the same kind, the nearest first."""
    kind, own = claim.hardware.kind, claim.hardware.diameter_mm
    if kind in ONE_SIZE or claim.hardware.printed:  # a printed pin is what it is: no stock replaces it
        return (), ()
    larger: list[Stock] = []
    smaller: list[Stock] = []
    for stock in job.tables.sizes(kind):
        size = stock.diameter_mm.value
        sized = replace(claim.hardware, diameter_mm=size, size_mm=None)
        ends = ends_of(sized, claim.fit, job.limits, job.tables)
        drill = drill_of(sized, claim.fit, job.limits, job.tables)
        if ends is None or drill is None or stock is stock_of(job.tables, kind, own):
            continue
        boss = job.limits.boss_ratio.value * size if claim.fit == "pilot" else 0.0
        label = f"{stock.label} {kind}"
        other = Stock(label=label, diameter_mm=size, need_mm=ends[0], most_mm=ends[1], drill_mm=drill, boss_mm=boss)
        if size > own:
            larger.append(other)
        else:
            smaller.insert(0, other)
    return tuple(larger), () if kind == "insert" else tuple(smaller)


def _boss(job: Job, part: Part, claim: Claim) -> BoreBoss:
    """Return the rule about the boss round a pilot."""
    assert claim.bore.edge_wall_mm is not None
    return BoreBoss(
        part=part.name,
        feature=claim.bore.id,
        hardware=claim.hardware.name,
        screw_mm=claim.hardware.diameter_mm,
        bore=claim.bore,
        edge_mm=claim.bore.edge_wall_mm,
        times=job.limits.boss_ratio,
    )


def _edge(job: Job, part: Part, bore: Bore, case: BoreCase | None, down: Vec3) -> BoreEdge:
    """Return the edge rule of one bore."""
    limit, source = edge_limit(job, part)
    assert bore.edge_wall_mm is not None
    return BoreEdge(
        part=part.name,
        feature=bore.id,
        bore=bore,
        edge_mm=bore.edge_wall_mm,
        limit_mm=limit,
        duty=part.judged_duty,
        case=case,
        source=source,
        undersize_mm=undersize_of(job, bore.axis, down)[0].value,
        work=work_on(job, part, bore),
    )

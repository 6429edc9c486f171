"""Bind the bore rules: one case for each claim, one edge rule for each bore, one word for each unclaimed bore."""

from __future__ import annotations

from dataclasses import replace

from planner.assembly import CLAMPED, Claim, drill_of, ends_of, same_size, stock_of
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
from planner.rules.of_job.sunk_heads import head_case, sunk_heads
from planner.rules.rule import ConstantFinding, Rule
from planner.sourced import Sourced
from planner.survey import Bore, Survey

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
    heads = sunk_heads(job, part, survey, claims)
    for bore in survey.bores:
        mine = [claim for claim in claims if claim.bore is bore]
        stepped = any(bore.id in (other.id, other.step_of) and other.step_of for other in survey.bores)
        cases = [case for claim in mine for case in [_case(job, part, claim, down, stepped=stepped)] if case]
        if not mine and bore.id not in cords and bore.id in heads:
            shank = _case(job, part, heads[bore.id], down, stepped=True)
            sunk = replace(shank, feature=bore.id, bore=bore, work=work_on(job, part, bore)) if shank else None
            cases = [head_case(job, sunk, heads[bore.id])] if sunk else []
            rules += [BoreTight(case=case) for case in cases]
        every[bore.id] = cases
        for case in cases if mine else ():
            rules += [BoreTight(case=case), BoreLoose(case=case)]
        rules += [_boss(job, part, claim) for claim in mine if claim.fit == "pilot" and bore.edge_wall_mm is not None]
        if bore.edge_wall_mm is not None:
            rules.append(_edge(job, part, bore, cases[0] if cases else None, down))
        named = any(claim.bore is bore for claim in claims)
        if not cases and not named and bore.id not in cords:
            rules.append(ConstantFinding(finding=_unclaimed(job, part, bore), feature=bore.id))
        elif named and not cases:
            rules.append(ConstantFinding(finding=_no_root(part, bore, claims), feature=bore.id))
    rules += _work_rules(job, part, survey, every, cords, down)
    listed = [bore for bore in survey.possible_bores if bore.id not in cords]
    rules += [ConstantFinding(finding=_possible(part, bore), feature=bore.id) for bore in listed]
    return rules


def work_on(job: Job, part: Part, bore: Bore) -> WorkedBore:
    """Return the work that the job states for a bore, by its name or by the size that it is drawn at."""
    slack = job.limits.bore_match_percent.value / 100.0

    def speaks(work: HandWork) -> bool:
        drawn = work.drawn_mm
        like = drawn is not None and abs(bore.named_mm - drawn) <= slack * drawn + 1e-9
        return work.part == part.name and (like or bore.id in work.bores)

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
    missed = [work for work in job.works if work.part == part.name and id(work) not in done]
    known = {bore.id for bore, _ in worked}
    missed += [w for w in job.works if w.part == part.name and id(w) in done and not set(w.bores) <= known]
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


def _case(job: Job, part: Part, claim: Claim, down: Vec3, *, stepped: bool) -> BoreCase | None:
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
        larger=larger,
        smaller=smaller,
        stepped=stepped,
        fit_words=tight[0],
        play_words=loose[0],
        clearance_source=tight[1],
        play_source=loose[1],
        edge_source=edge_source,
        work=work_on(job, part, claim.bore),
    )


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


def _unclaimed(job: Job, part: Part, bore: Bore) -> Finding:
    """Say that no hardware claims a bore: a hold where it may carry; else it is only listed."""
    open_mm = [one.bore_mm for one in job.left_open if part.name in one.parts]
    held = part.judged_duty in LOADED and not part.ignore_bores and not same_size(bore, open_mm, job.limits)
    way = "through" if bore.through else "blind"
    return Finding(
        rule="bore.unclaimed",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.HOLD if held else Verdict.GO,
        measured=bore.drawn_diameter_mm,
        unit="mm",
        at_mm=bore.centre_mm,
        why=f"nothing is named for the {way} bore {bore.id} of {bore.drawn_diameter_mm:.2f} mm, "
        f"so it is not checked against hardware (duty {part.judged_duty})",
        remedy="name its hardware, or list it under [[open]] where nothing goes through" if held else "",
        source="survey of the mesh",
        caution="" if held else "listed only: no hardware claims it",
        question=f"What goes into the {bore.drawn_diameter_mm:.2f} mm bores of {part.name}?" if held else "",
    )


def _possible(part: Part, bore: Bore) -> Finding:
    """List a bore that is open at one side or too coarse to be sure of."""
    return Finding(
        rule="bore.possible",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.GO,
        measured=bore.drawn_diameter_mm,
        unit="mm",
        at_mm=bore.centre_mm,
        why=f"{bore.id} looks like a bore of {bore.drawn_diameter_mm:.2f} mm, {bore.coverage_deg:.0f} degrees round, "
        f"{bore.facets_n} facets: not checked",
        source="survey of the mesh",
        caution="listed only: it may be a clip, a fillet or a coarse bore",
    )


def _no_root(part: Part, bore: Bore, claims: tuple[Claim, ...]) -> Finding:
    """Say that a pilot cannot be judged without a thread root."""
    name = next(claim.hardware.name for claim in claims if claim.bore is bore)
    return Finding(
        rule="bore.pilot",
        part=part.name,
        feature=bore.id,
        verdict=Verdict.HOLD,
        at_mm=bore.centre_mm,
        why=f"the thread root of {name} is in no table, so its pilot bore {bore.id} cannot be judged",
        remedy="state a diameter of the hardware tables",
        source="hardware tables",
        question=f"What is the thread root of {name}, in mm?",
    )

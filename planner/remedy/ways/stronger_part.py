"""A part that its load may break: laid another way, printed more solid, in another material, or a pin of metal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from planner.finding import Finding, Vec3
from planner.job import Edit, Job, Settings, part_of, with_edits
from planner.layers import rough_estimate
from planner.mesh import posed
from planner.pose import toward
from planner.remedy.candidate import FREE, Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Stand
from planner.scale import Scale
from planner.strength import Screened, judged_otherwise, lying_otherwise

LESS = 0.97
"""Another pose is tried where it takes less than this share of what the part takes now."""
POSES_MOST = 3
STEPS = ((1, 0.0), (2, 0.0), (4, 0.0), (4, 40.0), (4, 60.0), (4, 100.0))
"""So many contours more, with at least so much infill: in order of what they cost."""
PIN_MPA = 300.0
"""Yield strength of steel pins that are not hardened (ISO 2338 St, from memory: 125 to 245 HV)."""
SAME_MM = 0.15


def laid_stronger(stand: Stand, group: Group) -> Iterator[Candidate]:
    """Yield the poses in which the load tears layers less, that with the least stress first."""
    one, finding = _screened(stand, group), group.findings[0]
    if one is None or finding.measured is None:
        return
    poses = lying_otherwise(one, finding.measured)
    less = [(share, down) for share, down in poses if share < LESS * finding.measured]
    unseen = finding.measured <= 100.0 * finding_limit(finding)
    if unseen:  # a face that holds it, a notch or slender legs: less on its cuts does not tell
        less = [(share, down) for share, down in poses if not _still(stand, one, stand.job, finding, down)]
    if not less and unseen:
        yield Candidate(
            kind="pose",
            text=f"lay {group.part} another way",
            part=group.part,
            why_not=f"in none of its {len(poses)} resting poses what cuts do not see is go",
        )
    elif not less:
        yield Candidate(
            kind="pose",
            text=f"lay {group.part} another way",
            part=group.part,
            why_not=f"none of its {len(poses)} resting poses takes less than the {finding.measured:.0f} % of now",
        )
    for share, down in less[:POSES_MOST]:
        told = f"{share:.0f} % instead of {finding.measured:.0f} %"
        stated = stand.job.part(group.part).pose is not None
        yield Candidate(
            kind="pose",
            text=f"lay {group.part} with {toward(down)} down ({told})",
            part=group.part,
            does=(Edit(table="part", name=group.part, put={"pose": [round(value, 6) + 0.0 for value in down]}),),
            why_not=f"the job states its pose; this one would take {told}" if stated else "",
        )


def more_solid(stand: Stand, group: Group) -> Iterator[Candidate]:
    """Yield more contours, then more infill too, until one takes no more than is go: the whole device prints so."""
    one, finding, now = _screened(stand, group), group.findings[0], stand.job.settings
    if one is None:
        return
    nearest: Candidate | None = None
    for more_n, infill_percent in STEPS:
        put: dict[str, float | int] = {"contours_n": now.contours_n + more_n}
        if infill_percent > now.infill_percent.value:
            put["infill_percent"] = infill_percent
        edit = Edit(table="settings", put=put)
        changed = with_edits(stand.job, (edit,))
        text = f"print with {put['contours_n']} contours instead of {now.contours_n}"
        text += f" and {infill_percent:g} % infill instead of {now.infill_percent.value:g} %" if len(put) > 1 else ""
        why = _still(stand, one, changed, finding)
        if not why:
            yield from [nearest] if nearest else []
            yield _with_costs(stand, Candidate(kind="settings", text=text, does=(edit,)), changed)
            return
        nearest = Candidate(kind="settings", text=text, why_not=why)
    yield from [nearest] if nearest else []


def refused_material(stand: Stand, group: Group, changed: Job) -> str:
    """Return why another material does not do for a part under its load; empty where it does."""
    one = _screened(stand, group)
    return "" if one is None else _still(stand, one, changed, group.findings[0])


def metal_pin(stand: Stand, group: Group) -> Iterator[Candidate]:
    """Yield a steel pin of the same size in place of a printed one."""
    job, finding = stand.job, group.findings[0]
    one = _screened(stand, group)
    if one is None or job.part(group.part).judged_duty != "pin" or finding.measured is None or one.weakest is None:
        return
    text = f"take a steel pin instead of printing {group.part}"
    piece = next((each for each in job.hardware if each.printed == group.part), None)
    stress_mpa = one.weakest.stress_at_mpa(finding.measured)
    stock = next(
        (
            size
            for size in job.tables.sizes("dowel-pin")
            if piece and abs(size.diameter_mm.value - piece.diameter_mm) <= SAME_MM
        ),
        None,
    )
    named = any(group.part in joint.between for joint in job.joints)
    why = ""
    if piece is None:
        why = "no [[hardware]] says that it is printed as this part, so nothing tells which bores it goes through"
    elif stock is None:
        why = f"no parallel pin of {piece.diameter_mm:g} mm is in the stock (ISO 2338)"
    elif named:
        why = "a [[joint]] names it as a part: take it out there first"
    elif stress_mpa > finding_limit(finding) * PIN_MPA:
        why = f"{stress_mpa:.0f} MPa is over half of the {PIN_MPA:g} MPa at which a plain steel pin stays bent"
    if piece is None or stock is None or why:
        yield Candidate(kind="hardware", text=text, part=group.part, why_not=why)
        return
    places = [Edit(table="place", name=each.part, drop=True) for each in job.places if part_of(each.part) == group.part]
    price = piece.price_each or job.tables.prices.get(piece.kind)
    yield Candidate(
        kind="hardware",
        text=f"{text}: {stock.label}, ISO 2338 ({stress_mpa:.0f} MPa of about {PIN_MPA:g} MPa)",
        part=group.part,
        does=(
            Edit(table="part", name=group.part, drop=True),
            Edit(table="hardware", name=piece.name, put={"diameter_mm": stock.diameter_mm.value}, without=("printed",)),
            *places,
        ),
        costs=Costs(minutes_min=0.0, money=None if price is None else price * piece.count),
    )


def finding_limit(finding: Finding) -> float:
    """Return up to which share of a strength it is go, 0 to 1."""
    return (finding.limit or 0.0) / 100.0


def _screened(stand: Stand, group: Group) -> Screened | None:
    """Return the part under the loads that are known: only what these end is looked after."""
    return next((one for one in stand.screens if one.part == group.part and one.known), None)


def _still(stand: Stand, one: Screened, changed: Job, finding: Finding, down: Vec3 | None = None) -> str:
    """Return what a part still takes with a changed job, or laid another way, where that is no go; else nothing."""
    now = judged_otherwise(changed, one, stand.solids[one.part], Scale(stand.percent).factor, down)
    if now is None or now.verdict.passes or now.measured is None:
        return ""
    if now.measured <= 100.0 * finding_limit(finding):
        return f"it is no go for what cuts do not see: {now.why}"
    stress = now.why.partition(" takes ")[2].partition(",")[0]
    return f"{one.part} still takes {stress}, {now.measured:.0f} % of the low strength"


def _with_costs(stand: Stand, candidate: Candidate, changed: Job) -> Candidate:
    """Return a candidate with what more plastic and time the whole device takes."""
    material = stand.job.material or stand.job.materials[0]
    grams_g, minutes_min = 0.0, 0.0
    factor = Scale(stand.percent).factor
    for part in stand.job.parts:
        solid = posed(stand.solids[part.name].scaled((factor, factor, factor)), stand.downs[part.name])

        def made(settings: Settings) -> tuple[float, float]:
            rough = rough_estimate(solid, settings=settings, printer=stand.job.printer, material=material)  # noqa: B023
            return rough.plastic_g, rough.print_min

        (was_g, was_min), (now_g, now_min) = made(stand.job.settings), made(changed.settings)
        grams_g += part.printed_n * (now_g - was_g)
        minutes_min += part.printed_n * (now_min - was_min)
    money = grams_g * material.price_per_kg.value / 1000.0
    text = f"{candidate.text} (about {grams_g:.0f} g and {minutes_min:.0f} min of printing more for the whole device)"
    return replace(candidate, text=text, costs=replace(FREE, money=round(money, 2)))

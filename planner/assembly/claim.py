"""Which bore belongs to which hardware: by the drawn diameter stated, or by the nearest that would serve."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.finding import Finding, Guess, Verdict
from planner.job import Fit, Hardware, HardwareTables, Job, Limits, StockSize
from planner.survey import Bore, Survey

USUAL_FIT: dict[str, Fit] = {
    "binding-post": "turning",
    "dowel-pin": "held",
    "machine-screw": "sliding",
    "wood-screw": "pilot",
}
"""Taken where the job states no fit; common practice, no source."""
SEATS = ("nut", "washer", "insert")
SAME_SIZE_MM = 0.15
"""A stated diameter this near to a stock size means that size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """One bore of one part, claimed by one piece of hardware."""

    part: str
    bore: Bore
    hardware: Hardware
    fit: Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Claims:
    """All claims of a job, what was missing, and what was guessed."""

    claims: tuple[Claim, ...]
    missing: tuple[Finding, ...]
    guesses: tuple[Guess, ...]


def claims_of(job: Job, surveys: Mapping[str, Survey]) -> Claims:
    """Match every piece of hardware that needs a bore with the bores of the parts it joins."""
    claims: list[Claim] = []
    missing: list[Finding] = []
    guesses: list[Guess] = []
    for hardware in job.hardware:
        if hardware.kind in SEATS:
            continue
        fit = hardware.fit or USUAL_FIT[hardware.kind]
        if hardware.fit is None:
            guesses.append(Guess(what=f"fit of {hardware.name}", value=fit, why=f"usual for a {hardware.kind}"))
        for part in hardware.joins:
            bores, guess = matching(surveys[part], hardware, fit, job)
            claims += [Claim(part=part, bore=bore, hardware=hardware, fit=fit) for bore in bores]
            guesses += [guess] if guess else []
            if not bores:
                missing.append(_missing(hardware, part, surveys[part]))
    return Claims(claims=tuple(claims), missing=tuple(missing), guesses=tuple(guesses))


def matching(survey: Survey, hardware: Hardware, fit: Fit, job: Job) -> tuple[tuple[Bore, ...], Guess | None]:
    """Return the bores of one part that a piece of hardware goes through, and the guess that was needed."""
    if hardware.bore_mm is not None:
        return bores_near(survey, hardware.bore_mm, job.limits), None
    ends = printed_ends(hardware.diameter_mm, hardware.kind, fit, job.limits, job.tables)
    if ends is None or not survey.bores:
        return (), None
    middle = (ends[0] + ends[1]) / 2 + job.printer.undersize.upright_mm.value
    nearest = min(survey.bores, key=lambda bore: abs(bore.drawn_diameter_mm - middle))
    if abs(nearest.drawn_diameter_mm - middle) > 0.25 * middle:
        return (), None
    guess = Guess(
        what=f"bore of {hardware.name} in {survey.name}",
        value=f"{nearest.drawn_diameter_mm:.2f} mm",
        why="bore_mm is not stated; nearest to what the hardware needs",
    )
    return bores_near(survey, nearest.drawn_diameter_mm, job.limits), guess


def bores_near(survey: Survey, drawn_mm: float, limits: Limits) -> tuple[Bore, ...]:
    """Return the bores whose drawn diameter lies within the matching share (4 %) of one stated."""
    slack = limits.bore_match_percent.value / 100.0 * drawn_mm
    return tuple(bore for bore in survey.bores if abs(bore.drawn_diameter_mm - drawn_mm) <= slack + 1e-9)


def printed_ends(
    diameter_mm: float, kind: str, fit: Fit, limits: Limits, tables: HardwareTables
) -> tuple[float, float] | None:
    """Return the least and the largest printed bore for hardware of a diameter; None where its root is unknown."""
    if fit == "pilot":
        stock = stock_of(tables, kind, diameter_mm)
        if stock is None or stock.root_mm is None:
            return None
        root = stock.root_mm.value
        return root * limits.pilot_low_share.value, root * limits.pilot_high_share.value
    running = {
        "turning": limits.running_turning_mm,
        "sliding": limits.running_sliding_mm,
        "held": limits.running_held_mm,
    }
    play = {"turning": limits.play_turning_mm, "sliding": limits.play_sliding_mm, "held": limits.play_held_mm}
    return diameter_mm + running[fit].value, diameter_mm + play[fit].value


def stock_of(tables: HardwareTables, kind: str, diameter_mm: float) -> StockSize | None:
    """Return the stock size that a stated diameter means, or None."""
    sizes = tables.sizes(kind)
    near = min(sizes, key=lambda stock: abs(stock.diameter_mm.value - diameter_mm), default=None)
    return near if near and abs(near.diameter_mm.value - diameter_mm) <= SAME_SIZE_MM else None


def _missing(hardware: Hardware, part: str, survey: Survey) -> Finding:
    """Say that a part has no bore for its hardware, and what it has instead."""
    wanted = hardware.bore_mm or hardware.diameter_mm
    have = [bore.drawn_diameter_mm for bore in survey.bores + survey.possible_bores]
    near = min(have, key=lambda d: abs(d - wanted), default=None)
    told = f"its nearest is {near:.2f} mm, {100 * near / wanted:.1f} % of it" if near else "it has none"
    scaled = near is not None and 0.5 < near / wanted < 2.0
    return Finding(
        rule="bore.missing",
        part=part,
        feature=hardware.name,
        verdict=Verdict.HOLD,
        measured=near,
        limit=wanted,
        unit="mm",
        why=f"{hardware.name} needs a bore of {wanted:g} mm (within 4 %) in {part}: {told}",
        remedy="state the bore as drawn (bore_mm)"
        + (f", or is {part} drawn at another scale than the rest?" if scaled else ""),
        source="survey of the mesh",
        question=f"Is {part} drawn at the same size as the other parts, and which of its bores takes {hardware.name}?",
    )

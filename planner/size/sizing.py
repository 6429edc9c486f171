"""Sizing: which scale the job is printed at, why, and whether its measures agree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from planner.finding import Finding, Guess, Verdict
from planner.job import Job, Measure, Station, padded_mm, scale_from
from planner.mesh import Solid
from planner.rules import Rule
from planner.scale import Scale
from planner.size.measure_age import measure_age
from planner.size.measure_range import SizeEnd, at_range_ends, scales_of
from planner.size.measures_agree import MeasureScale, disagree
from planner.size.unit_slip import slips
from planner.size.untried_size import untried
from planner.size.which_side import sides
from planner.survey import CLOSED_LEAST_PERCENT, Inside, inside_at

OPEN_TOLD_PERCENT = 0.5
"""A narrower opening than this is a seam, not worth a word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sizing:
    """The scale in percent, its reason in one sentence, and what was found on the way.

    ``rules`` speak of any size, the one that is printed and those that are only tried.
    """

    percent: float
    why: str
    findings: tuple[Finding, ...]
    guesses: tuple[Guess, ...]
    measures: tuple[MeasureScale, ...] = ()
    rules: tuple[Rule, ...] = ()
    ends: tuple[SizeEnd, ...] = ()
    """The same with measures at the ends of their ranges; empty where each is taken for exact."""

    def at_its_size(self) -> tuple[Finding, ...]:
        """Return everything that is said of the size itself."""
        return (*self.findings, *(rule.at(Scale(self.percent).factor) for rule in self.rules))


def sizing(job: Job, solids: Mapping[str, Solid], today: date) -> Sizing:
    """Return the scale that the job asks for.

    A stated percent rules and the measures are compared with it; without one the measure governs that the job names,
    or the one that asks for most; without either the device is printed as drawn.
    """
    yields: list[tuple[Measure, float]] = []
    devices: list[float] = []
    guesses: list[Guess] = []
    findings = sides(job)
    for measure in job.size.measures:
        device = measure.device_mm
        if isinstance(device, Station):
            found = inside_at(solids[device.part], device.station_percent, measure.kind)
            if found is None:
                findings.append(_unmeasured(measure, device))
                continue
            findings += _half_open(measure, device, found)
            guesses.append(_measured(measure, device, found))
            device = found.mm
        yields.append((measure, scale_from(measure, device)))
        devices.append(device)
        findings += [measure_age(measure, job, today), *slips(measure, job.use)]
    percent, why = _governing(job, yields)
    if job.size.percent is None and not yields:
        guesses.append(Guess(what="scale", value="100 %", why="neither a percent nor a measure is stated"))
    asked = _asked(job, percent, yields, devices)
    return Sizing(
        percent=percent,
        why=why,
        findings=tuple(findings),
        guesses=tuple(guesses),
        measures=asked,
        rules=(*disagree(job, asked), *untried(job)),
        ends=tuple(_ends(job, [measure for measure, _ in yields], devices)),
    )


def _ends(job: Job, measures: list[Measure], devices: list[float]) -> Iterator[SizeEnd]:
    """Yield the sizes asked for with measures at the ends of their ranges."""
    for moved in at_range_ends(measures):
        yields = scales_of(moved, devices)
        percent, _ = _governing(job, yields)
        yield SizeEnd(percent=percent, rules=tuple(disagree(job, _asked(job, percent, yields, devices))))


def _asked(
    job: Job, percent: float, yields: list[tuple[Measure, float]], devices: list[float]
) -> tuple[MeasureScale, ...]:
    """Return what each measure asks for, and what it leaves at the size chosen."""
    governing = None if job.size.percent is not None or not yields else _governor(job, yields)[0]
    return tuple(
        MeasureScale(
            name=measure.name,
            percent=asked,
            device_mm=device,
            spare_mm=device * Scale(percent).factor - padded_mm(measure),
            governs=measure is governing,
        )
        for (measure, asked), device in zip(yields, devices, strict=True)
    )


def _governing(job: Job, yields: list[tuple[Measure, float]]) -> tuple[float, str]:
    """Return the percent and the sentence that says where it comes from."""
    if job.size.percent is not None:
        tried = "tried on the command line" if job.size.what_if else "stated in the job"
        return job.size.percent, f"{job.size.percent:g} % is {tried}"
    if not yields:
        return 100.0, "neither a percent nor a measure is stated, so the drawn size is used"
    measure, percent = _governor(job, yields)
    return (
        percent,
        f"{measure.name} governs: {measure.recipient_mm:g} mm with padding and ease asks for {percent:.1f} %",
    )


def _governor(job: Job, yields: list[tuple[Measure, float]]) -> tuple[Measure, float]:
    """Return the measure that governs and what it asks for: the one the job names, else the one asking for most."""
    named = [pair for pair in yields if pair[0].name == job.size.governs]
    return named[0] if named else max(yields, key=lambda pair: pair[1])


def _measured(measure: Measure, station: Station, found: Inside) -> Guess:
    """Say what was measured on the mesh, where, and what part of the round the part leaves open."""
    along = f"along its {found.along} axis, across which it is round" if found.along else "of its length"
    why = f"inside {station.part} at {station.station_percent:g} % {along}"
    if measure.kind == "around" and found.open_percent > OPEN_TOLD_PERCENT:
        why += f"; {found.open_percent:.0f} % of the round is open there, the curve of its inner side was continued"
    return Guess(what=f"{measure.name}: the device's own", value=f"{found.mm:.1f} mm", why=why)


def _half_open(measure: Measure, station: Station, found: Inside) -> list[Finding]:
    """Hold where a circumference rests on a shell that closes too little of it."""
    closed = 100.0 - found.open_percent
    if measure.kind != "around" or closed >= CLOSED_LEAST_PERCENT:
        return []
    return [
        Finding(
            rule="size.open",
            part=station.part,
            feature=measure.name,
            verdict=Verdict.HOLD,
            measured=closed,
            limit=CLOSED_LEAST_PERCENT,
            unit="%",
            why=f"{station.part} closes only {closed:.0f} % of its round at {station.station_percent:g} % of its "
            f"length: {found.mm:.1f} mm around is the length when the curve of that side is continued",
            remedy="state device_mm, or measure a width instead",
            source="section of the mesh; the limit is common practice, no source",
            question=f"How long is {measure.name} inside the device at 100 %, in mm, strap or opening included?",
        )
    ]


def _unmeasured(measure: Measure, station: Station) -> Finding:
    """Say that a station has no inside to measure."""
    return Finding(
        rule="size.unmeasured",
        part=station.part,
        feature=measure.name,
        verdict=Verdict.HOLD,
        why=f"{station.part} has no opening at {station.station_percent:g} % of its length",
        remedy="state device_mm, or another station",
        source="section of the mesh",
        question=f"What is {measure.name} inside the device at 100 %, in mm?",
    )

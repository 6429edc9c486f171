"""``mesh.unit``: is each mesh read in the unit that it was drawn in? Judged by its neighbours and by what is bought.

STL, OBJ and PLY name no unit. A part that is read too small shows it: its bores and walls are finer than any line, or
it is a speck beside its neighbours where in another unit it would be of their size. A small part is no fault by
itself: a pin, a spacer with the bore of a stock screw or a part of whole millimetres is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from scipy.spatial import ConvexHull

from planner.finding import Finding, Verdict
from planner.job import HardwareTables, Job, Part
from planner.phrases import listed
from planner.rules.rule import lifted
from planner.survey import Survey

MM_IN = {"inch": 25.4, "cm": 10.0, "m": 1000.0}
"""The inch since 1959 (international yard and pound agreement)."""
TINY_SHARE = 0.2
"""A part below this share of the least plausible device, 2 mm, is probably in another unit."""
SPECK_SHARE = 0.15
"""A part this much smaller than the largest other one is looked at; common practice, no source."""
LARGE_SHARE = 1.5
"""A unit that makes a part this much larger than the largest of the others is offered after those that do not."""
ROUNDED = 0.01
FINE_LINES = 2.0
"""A bore narrower than this many lines is not printed open; common practice, no source."""
ALONE_MOST_MM = 40.0
"""A larger part is not looked at: in inches it would be over a metre long."""
BORE_MOST_MM = 30.0
"""What is put in a bore is seldom thicker; common practice, no source."""
STOCK_NEAR_MM = 0.15
WHOLE_MM = 0.5
ROUND_SHARE = 0.03
SMALL_WORDS = frozenset(
    (
        *("bush", "bushing", "button", "cap", "clip", "dowel", "foot", "key", "knob", "nut", "peg", "pin", "plug"),
        *("pulley", "ring", "roller", "shim", "spacer", "stop", "washer"),
    )
)
"""Words in a part's name that say that it is small; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DoubtedUnit:
    """Parts whose unit one answer settles: the units that would make them plausible, likeliest first."""

    parts: tuple[str, ...]
    units: tuple[str, ...]

    @property
    def id(self) -> str:
        """Stable and readable: ``unit-bracket``."""
        return f"unit-{self.parts[0]}"


_Doubted = tuple[str, tuple[str, ...], str]
"""A part, the units that are offered for it, and why its own is in doubt."""


def unit_findings(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Return a hold for every mesh whose unit is in doubt, or for the device where all of it is."""
    whole = _of_device(job, surveys)
    if whole:
        return whole
    ids = {name: one.id for one in doubted_units(job, surveys) for name in one.parts}
    found = []
    for name, units, why in _doubted(job, surveys).values():
        as_read = " x ".join(f"{side:.4g}" for side in surveys[name].size_mm)
        question = f"Is {name} drawn in {_offers(surveys[name], units)}, or is it {as_read} mm?"
        told = f"{why}; its fits are not judged until that is settled"
        hold = mesh_hold("mesh.unit", name, told, f"state mesh_unit for {name} in its [[part]]", "unit", question)
        found.append(replace(hold, question_id=ids[name]))
    return found


def doubted_units(job: Job, surveys: Mapping[str, Survey]) -> tuple[DoubtedUnit, ...]:
    """Return the parts whose own unit is in doubt, those of which one answer is asked together.

    None where the unit of the whole device is open.
    """
    if _of_device(job, surveys):
        return ()
    alike: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for name, units, _ in _doubted(job, surveys).values():
        alike.setdefault((surveys[name].unit, units), []).append(name)
    return tuple(DoubtedUnit(parts=tuple(names), units=units) for (_, units), names in alike.items())


def _doubted(job: Job, surveys: Mapping[str, Survey]) -> dict[str, _Doubted]:
    """Return every part whose own unit is in doubt, each once."""
    found: dict[str, _Doubted] = {}
    for one in (*_beside_stated(job, surveys), *_of_parts(job, surveys)):
        found.setdefault(one[0], one)
    return found


def in_doubt(job: Job, surveys: Mapping[str, Survey]) -> frozenset[str]:
    """Return the parts whose unit is open, so that nothing that depends on their size can be judged."""
    held = {f.part for f in unit_findings(job, surveys) if not lifted(f, job.overrides).verdict.passes}
    if _of_device(job, surveys) and held:
        return frozenset(part.name for part in job.parts if not _states_unit(job, part.name))
    return frozenset(held)


def mesh_hold(rule: str, part: str, why: str, remedy: str, feature: str, question: str = "") -> Finding:
    """Return a hold about a mesh."""
    return Finding(
        rule=rule,
        part=part,
        feature=feature,
        verdict=Verdict.HOLD,
        why=why,
        remedy=remedy,
        source="mesh file",
        question=question,
    )


def _of_device(job: Job, surveys: Mapping[str, Survey]) -> list[Finding]:
    """Judge whether the largest part is of a size that a device has."""
    largest = max((max(survey.size_mm), survey.name) for survey in surveys.values())
    low, high = job.limits.unit_least_mm, job.limits.unit_most_mm
    if low.value <= largest[0] <= high.value or job.part(largest[1]).mesh_unit is not None:
        return []  # a unit that is stated for the part itself is meant
    survey = surveys[largest[1]]
    units = tuple(unit for unit, mm in MM_IN.items() if largest[0] * mm <= high.value) or tuple(MM_IN)
    guess = " or ".join(units) if largest[0] < low.value else "mm"
    why = (
        f"the largest part, {largest[1]}, is {largest[0]:.4g} mm long when its file is read in {survey.unit}: "
        f"a device is usually {low.value:g} to {high.value:g} mm; no fit is judged until that is settled"
    )
    offers = _offers(survey, units) if largest[0] < low.value else "mm"
    question = f"In which unit is {largest[1]} drawn: {offers}?"
    hold = mesh_hold("mesh.unit", largest[1], why, f"state the right [job] mesh_unit ({guess}?)", "unit", question)
    return [replace(hold, question_id="unit")]


def _beside_stated(job: Job, surveys: Mapping[str, Survey]) -> Iterator[_Doubted]:
    """Judge files of no unit beside others that state one: those that would still be of a device's size in it."""
    stated = {survey.unit for name, survey in surveys.items() if _file_states_unit(job.part(name))} - {"mm"}
    if job.mesh_unit is not None:
        return
    for name, survey in surveys.items():
        longest = max(survey.size_mm)
        other = sorted(u for u in stated if longest * MM_IN.get(u, 1.0) <= job.limits.unit_most_mm.value)
        if survey.unit == "mm" and other and not _states_unit(job, name):
            why = f"{name} names no unit and is read in mm, while other files of the job are in {listed(other)}"
            yield name, tuple(other), why


def _of_parts(job: Job, surveys: Mapping[str, Survey]) -> Iterator[_Doubted]:
    """Judge every mesh against the others and against what is bought."""
    for part in job.parts:
        survey = surveys[part.name]
        others = [max(other.size_mm) for name, other in surveys.items() if name != part.name]
        if _states_unit(job, part.name):
            continue
        if survey.unit == "mm":
            reason, units = _too_small(job, part, survey, max(others, default=None))
        else:
            reason, units = _too_large(survey, max(others, default=None))
        if reason:
            as_read = " x ".join(f"{side:.4g}" for side in survey.size_mm)
            yield part.name, units, f"{part.name} is {as_read} mm when its file is read in {survey.unit}: {reason}"


def _too_small(job: Job, part: Part, survey: Survey, largest_mm: float | None) -> tuple[str, tuple[str, ...]]:
    """Return why a part is probably drawn in a larger unit, and in which; empty where nothing says so."""
    longest, most = max(survey.size_mm), job.limits.unit_most_mm.value
    near = tuple(
        unit for unit, mm in MM_IN.items() if longest * mm <= (LARGE_SHARE * largest_mm if largest_mm else most)
    )
    every = (unit for unit, mm in MM_IN.items() if longest * mm <= most)
    told = ("inch",) if longest * MM_IN["inch"] <= most and _tells_inches(part, survey) else ()
    fits = tuple(dict.fromkeys((*told, *near, *every)))  # a person may mean what makes it the largest part
    if longest < TINY_SHARE * job.limits.unit_least_mm.value:
        return "no part of a device is that small", fits or ("inch", "cm")
    speck = largest_mm is not None and longest < min(SPECK_SHARE * largest_mm, job.limits.unit_least_mm.value)
    if not (near or told) or longest > ALONE_MOST_MM:
        return "", ()
    too_fine = _too_fine(survey, job.settings.line_width_mm.value)
    if too_fine:
        return too_fine, fits
    if speck and not _small_by_itself(part, survey, job.tables):
        return f"beside parts of up to {largest_mm:.4g} mm it would be a speck", fits
    return "", ()


def _tells_inches(part: Part, survey: Survey) -> bool:
    """Return whether a name says inches, or all sides are whole sixteenths and one of them is no round decimal."""
    if {"inch", "inches"}.intersection(re.findall(r"[a-z]+", part.name.lower())):
        return True
    sixteenths, twentieths = (np.asarray(survey.size_mm) * n for n in (16.0, 20.0))
    whole, odd = np.abs(sixteenths - np.round(sixteenths)), np.abs(twentieths - np.round(twentieths))
    return bool(whole.max() < ROUNDED and odd.max() > ROUNDED)


def _too_fine(survey: Survey, line_mm: float) -> str:
    """Return what of a part is finer than a line can lay; empty where nothing is."""
    bores = [bore.drawn_diameter_mm for bore in survey.bores]
    if bores and max(bores) < FINE_LINES * line_mm and max(bores) * MM_IN["inch"] < BORE_MOST_MM:
        return f"its bores of {min(bores):.3g} to {max(bores):.3g} mm are narrower than {FINE_LINES:g} lines"
    if min(survey.size_mm) < line_mm:
        return f"it is {min(survey.size_mm):.3g} mm thick, less than a line of {line_mm:g} mm"
    area = survey.walls.area_mm2
    below = float(area[survey.walls.thickness_mm < line_mm].sum())
    if below > 0.5 * survey.area_mm2:
        middle = float(np.median(survey.walls.thickness_mm))
        return f"most of its walls are thinner than a line of {line_mm:g} mm, {middle:.3g} mm in the middle"
    return ""


def _small_by_itself(part: Part, survey: Survey, tables: HardwareTables) -> bool:
    """Return whether a small part is one in mm: by its name or duty, its bores, its roundness or its whole sizes."""
    words = {word.removesuffix("s") for word in re.findall(r"[a-z]+", part.name.lower())}
    if words & SMALL_WORDS or part.duty in ("pin", "soft"):
        return True
    if any(_is_stock(bore.drawn_diameter_mm, tables) for bore in survey.bores):
        return True
    whole = all(abs(side / WHOLE_MM - round(side / WHOLE_MM)) * WHOLE_MM < 0.01 for side in survey.size_mm)
    return whole or _is_round(survey)


def _is_stock(bore_mm: float, tables: HardwareTables) -> bool:
    """Return whether a bore is that of a screw, or of a pin, that is bought."""
    usual = [size.value for stock in tables.machine_screws for size in stock.bores_mm]
    usual += [s.diameter_mm.value for s in (*tables.machine_screws, *tables.dowel_pins, *tables.binding_posts)]
    return any(abs(bore_mm - size) <= STOCK_NEAR_MM for size in usual)


def _is_round(survey: Survey) -> bool:
    """Return whether a part is turned about an axis of its drawing: its hull fills a box by pi / 4, two sides alike."""
    a, b, c = sorted(survey.size_mm)
    alike = min(b / a, c / b) < 1.0 + ROUND_SHARE
    filled = float(ConvexHull(survey.hull_mm).volume) / (a * b * c)
    return alike and filled < np.pi / 4 * (1.0 + ROUND_SHARE)


def _too_large(survey: Survey, largest_mm: float | None) -> tuple[str, tuple[str, ...]]:
    """Return why a part is probably drawn in mm although its job says another unit; empty where nothing says so."""
    longest = max(survey.size_mm)
    factor = MM_IN.get(survey.unit)
    if largest_mm is None or factor is None or longest * SPECK_SHARE < largest_mm or longest / factor < 2.0:
        return "", ()
    return f"the largest of the others is {largest_mm:.4g} mm", ("mm",)


def _offers(survey: Survey, units: tuple[str, ...]) -> str:
    """Return units with the sizes that a part would have in them."""
    now = MM_IN.get(survey.unit, 1.0)
    told = []
    for unit in units:
        sides = " x ".join(f"{side * MM_IN.get(unit, 1.0) / now:.1f}" for side in survey.size_mm)
        told.append(f"{unit} ({sides} mm)")
    return " or ".join(told)


def _states_unit(job: Job, name: str) -> bool:
    """Return whether a person, or the file itself, says which unit a part is in."""
    part = job.part(name)
    return part.mesh_unit is not None or _file_states_unit(part)


def _file_states_unit(part: Part) -> bool:
    """Return whether a part's file states its own unit: 3MF does (3MF Core Specification, unit of the model)."""
    return part.mesh.suffix.lower() == ".3mf"

"""Words that several papers share: names of sides, parts with their count, percents, sizes of hardware."""

from __future__ import annotations

import math

from shapely import Polygon

from planner import __version__
from planner.finding import Verdict
from planner.output.paper_files.sheet import Head
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words import wording
from planner.phrases import listed
from planner.plan import Plan, PlannedPart

PRACTICE = "common practice, no source"
BAR_SHARE, ASKEW_SHARE = 0.9, 0.9
"""A shadow that fills its least rectangle is a bar; where that is less than this of the box round it, it lies askew."""
LETTERS = {"left": "L", "right": "R"}


def head_of(plan: Plan, tongue: Tongue = ENGLISH) -> Head:
    """Return the head of every card of a plan."""
    side = plan.job.size.side
    return Head(
        job=plan.job.name,
        recipient="" if plan.job.recipient in plan.job.name.split() else plan.job.recipient,
        size=tongue.amount(percent(plan.scale_percent)),
        letter=LETTERS[side] if side else "",
        side=_side(side, tongue),
        maker=tongue.say(
            "fitwright {version}: checks shape and plan only; it does not judge strength in use, fit on a body, or "
            "anything medical.",
            version=__version__,
        ),
        bar=_bar(plan.verdict, tongue),
        language=tongue.code,
        leftward=tongue.leftward,
        paged=tongue.say("{number} of {count}", number="{number}", count="{count}"),
        box=tongue.say("box to tick"),
        papers=tongue.say("papers"),
        together=tongue.say("all as one PDF"),
    )


def _side(side: str | None, tongue: Tongue) -> str:
    """Return the side on which it is worn."""
    if side is None:
        return tongue.say("no side stated")
    return tongue.say("left side") if side == "left" else tongue.say("right side")


def _bar(verdict: Verdict, tongue: Tongue) -> str:
    """Return what stands on every page of every paper where something must not be printed yet."""
    if verdict is Verdict.HOLD:
        return tongue.say("HOLD: do not print before what the job sheet lists is settled")
    return tongue.say("NO-GO: do not print") if verdict is Verdict.NO_GO else ""


def percent(percent: float) -> str:
    """Return a percent.

    >>> percent(106.5)
    '106.5 %'
    """
    return f"{percent:.4g} %"


def with_count(name: str, count: int) -> str:
    """Return a name with its count, where there are several.

    >>> with_count("jaw", 2), with_count("deck", 1)
    ('jaw × 2', 'deck')
    """
    return f"{name} × {count}" if count > 1 else name


def caliper(part: PlannedPart) -> tuple[str, float]:
    """Return the dimension to check with a caliper, and its value in mm: the longest side as printed.

    A part that lies askew in its own coordinates, as a pin does, is measured along itself.
    """
    x, y, z = part.posed.size_mm
    shadow = Polygon(part.outline_mm[0])
    ring = shadow.minimum_rotated_rectangle.exterior.coords
    a, b = (math.dist(ring[k], ring[k + 1]) for k in (0, 1))
    askew = BAR_SHARE * a * b < shadow.area and a * b < ASKEW_SHARE * x * y
    long = max(a, b) if askew else max(x, y)
    return ("high", z) if z > long else ("long", long)


def reads(part: PlannedPart, tongue: Tongue = ENGLISH) -> str:
    """Return what a caliper must read; parts are turned on the plate, so the sides have no fixed names."""
    way, value = caliper(part)
    mm = tongue.amount(f"{value:.1f} mm")
    return tongue.say("{mm} high", mm=mm) if way == "high" else tongue.say("{mm} long", mm=mm)


def copies(part: PlannedPart, count: int, tongue: Tongue = ENGLISH) -> str:
    """Return a part's name with its count, and that it is mirrored where it is."""
    name = tongue.kept(with_count(part.part.name, count))
    return tongue.say("{part} (mirrored)", part=name) if part.mirrored else name


def grams(mass_g: float | None, tongue: Tongue = ENGLISH) -> str:
    """Return grams, or that they are withheld."""
    return tongue.say("withheld") if mass_g is None else tongue.amount(wording.grams(mass_g))


def mirrored(plan: Plan) -> tuple[str, str]:
    """Return the parts that are mirrored and those that are not, in words."""
    return (
        listed(with_count(p.part.name, p.part.count) for p in plan.parts if p.mirrored),
        listed(with_count(p.part.name, p.part.count) for p in plan.parts if not p.mirrored),
    )


def worn(plan: Plan, tongue: Tongue = ENGLISH) -> tuple[str, str]:
    """Return the worn mass with its limit, and what the mass includes."""
    limit, say = plan.job.use.mass_limit_g, tongue.say
    if plan.worn_g is None:
        return say("withheld"), say("a mesh is not closed, so its mass is not known: weigh the finished device")
    mass = tongue.amount(f"{plan.worn_g:.0f} g")
    if limit:
        most = tongue.amount(f"{limit:g} g")
        return say("about {mass}; limit {most}", mass=mass, most=most), say("printed parts, metal, padding and straps")
    included = say("printed parts, metal, padding and straps; the job sets no limit")
    return say("about {mass}", mass=mass), included

"""Words that several papers share: names of sides, parts with their count, percents, sizes of hardware."""

from __future__ import annotations

from collections.abc import Iterable

from planner import __version__
from planner.layers import Amount
from planner.output.press.sheet import Head
from planner.plan import Plan, PlannedPart
from planner.supplies import HardwareLine

PRACTICE = "common practice, no source"
LETTERS = {"left": "L", "right": "R"}


def head_of(plan: Plan) -> Head:
    """Return what stands over every card of a plan."""
    side = plan.job.size.side
    return Head(
        job=plan.job.name,
        recipient="" if plan.job.recipient in plan.job.name.split() else plan.job.recipient,
        size=percent(plan.scale_percent),
        letter=LETTERS[side] if side else "",
        side=f"{side} side" if side else "no side stated",
        maker=f"fitwright {__version__}: checks geometry and plan only, not strength in use, fit on a body, or "
        "medical matters.",
    )


def percent(value: float) -> str:
    """Return a percent.

    >>> percent(106.5)
    '106.5 %'
    """
    return f"{value:.4g} %"


def hours(amount: Amount) -> str:
    """Return hours with their range, each with its unit.

    >>> hours(Amount(value=36000.0, low=25200.0, high=46800.0))
    '10.0 h (7.0 to 13.0 h)'
    """
    return f"{amount.value / 3600:.1f} h ({amount.low / 3600:.1f} to {amount.high / 3600:.1f} h)"


def counted(name: str, count: int) -> str:
    """Return a name with its count, where there are several.

    >>> counted("jaw", 2), counted("deck", 1)
    ('jaw × 2', 'deck')
    """
    return f"{name} × {count}" if count > 1 else name


def plural(count: int, thing: str) -> str:
    """Return a count with its thing.

    >>> plural(1, "bore"), plural(3, "bore")
    ('1 bore', '3 bores')
    """
    return f"{count} {thing}{'' if count == 1 else 's'}"


def listed(names: Iterable[str]) -> str:
    """Return names as a list in words.

    >>> listed(["a", "b", "c"]), listed([])
    ('a, b and c', 'none')
    """
    found = list(names)
    if not found:
        return "none"
    return found[0] if len(found) == 1 else f"{', '.join(found[:-1])} and {found[-1]}"


def bought(line: HardwareLine) -> str:
    """Return the size and length of a piece of hardware."""
    long = f" × {line.length_mm:g} mm" if line.length_mm else ""
    return f"{line.kind} {line.size}{long}"


def caliper(part: PlannedPart) -> tuple[str, float]:
    """Return the one dimension to check with a caliper, and its value in mm: the longest side as it was printed."""
    x, y, z = part.posed.size_mm
    return max((("long", x), ("long", y), ("high", z)), key=lambda pair: pair[1])


def reads(part: PlannedPart) -> str:
    """Return what a caliper must read; a part lies turned on its plate, so its sides have no front."""
    way, value = caliper(part)
    return f"{value:.1f} mm {way}"


def mirrored(plan: Plan) -> tuple[str, str]:
    """Return the parts that are mirrored and those that are not, in words."""
    return (
        listed(counted(p.part.name, p.part.count) for p in plan.parts if p.mirrored),
        listed(counted(p.part.name, p.part.count) for p in plan.parts if not p.mirrored),
    )


def worn(plan: Plan) -> tuple[str, str]:
    """Return the worn mass against its limit, and where both come from."""
    limit = plan.job.use.mass_limit_g
    if plan.worn_g is None:
        return "withheld", "a mesh is unsound, so its mass is not known: weigh the finished device"
    told = f"about {plan.worn_g:.0f} g" + (f" of {limit:g} g allowed" if limit else "")
    return told, "printed parts, metal, padding and straps" + ("" if limit else "; the job states no limit")

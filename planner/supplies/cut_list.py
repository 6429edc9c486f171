"""What must be cut: cord along its path at scale, webbing round the person, padding by area."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.finding import Finding
from planner.job import Cord, Job, Padding, Part, Strap
from planner.supplies.built.bench_work import works_on
from planner.supplies.supplies import Cut

KNOTS_MM = 120.0
"""Two knots of 60 mm, of cord or elastic; common practice, no source."""
ELASTIC_SHARE = 0.85
"""Between its knots an elastic is 0.8 to 0.9 of its path, so that it is always taut; common practice, no source."""
WEBBING_TIMES = 1.35
"""Round the person, through the buckle and back; common practice, no source."""


def cut_list(job: Job, factor: float, findings: Sequence[Finding]) -> tuple[Cut, ...]:
    """Return one line for each cord, strap and pad, at scale ``factor`` (1.0 as drawn)."""
    cords = [_cord(job, cord, factor) for cord in job.cords]
    straps = [_strap(job, strap, findings) for strap in job.straps]
    return (*cords, *straps, *(_padding(job, padding, factor) for padding in job.paddings))


def _price(job: Job, key: str, amount: float | None, count: int) -> float | None:
    """Return the price of an amount of something, by the example prices."""
    price = job.tables.prices.get(key)
    return None if price is None or amount is None else price * amount * count


def _cord(job: Job, cord: Cord, factor: float) -> Cut:
    """Cut a cord: path at scale plus knots; elastic shorter than its path between them."""
    if cord.path_mm is None:
        length, why = None, "no path_mm is stated: measure it on the assembled device"
    elif cord.kind == "elastic":
        length = cord.path_mm * factor * ELASTIC_SHARE + KNOTS_MM
        taut = cord.path_mm * factor * ELASTIC_SHARE
        why = (
            f"{cord.path_mm:g} mm × {factor:.3f} × {ELASTIC_SHARE:g} = {taut:.0f} mm between its knots, taut at rest, "
            f"+ {KNOTS_MM:g} mm for two knots (common practice, no source)"
        )
    else:
        length = cord.path_mm * factor + KNOTS_MM
        why = f"{cord.path_mm:g} mm × {factor:.3f} + {KNOTS_MM:g} mm for two knots (common practice, no source)"
    return Cut(
        name=cord.name,
        kind=cord.kind,
        length_mm=length,
        width_mm=cord.diameter_mm,
        area_mm2=None,
        count=cord.count,
        why=why,
        price=_price(job, cord.kind, length and length / 1000.0, cord.count),
    )


def _strap(job: Job, strap: Strap, findings: Sequence[Finding]) -> Cut:
    """Cut webbing by the person, who does not scale; narrower where the check says so."""
    taken = [w.takes_mm for _, w in works_on(strap.name, findings) if w.kind == "webbing" and w.takes_mm is not None]
    width = min(taken, default=strap.webbing_mm)
    length = None if strap.around_mm is None else strap.around_mm * WEBBING_TIMES
    told = (
        f"{strap.around_mm:g} mm around the person × {WEBBING_TIMES:g} (common practice, no source)" if length else ""
    )
    return Cut(
        name=strap.name,
        kind="webbing",
        length_mm=length,
        width_mm=width,
        area_mm2=None,
        count=strap.count,
        why=(told or "no around_mm is stated: measure the person over the padding")
        + (f"; {width:g} mm instead of {strap.webbing_mm:g} mm, the slot is too short for it" if taken else ""),
        price=_price(job, "webbing", length and length / 1000.0, strap.count),
    )


def own_factor(part: Part, factor: float) -> float:
    """Return the factor of a part's lengths: the job's, its own, or the geometric mean of three of its own.

    >>> from pathlib import Path
    >>> own_factor(Part(name="a", mesh=Path("a.stl"), scale_percent=100.0), 1.2)
    1.0
    """
    own = part.scale_percent
    if isinstance(own, tuple):
        return math.prod(own) ** (1.0 / 3.0) / 100.0
    return factor if own is None else own / 100.0


def _padding(job: Job, padding: Padding, factor: float) -> Cut:
    """Cut padding: its area grows with the square of the scale, its thickness stays."""
    factor = own_factor(job.part(padding.part), factor)
    area = None if padding.area_mm2 is None else padding.area_mm2 * factor**2
    drawn = f" (from {padding.outline.name})" if padding.outline else ""
    told = (
        f"{padding.area_mm2:.0f} mm²{drawn} × {factor:.3f} squared, {padding.thickness_mm:g} mm thick at every scale"
        if area
        else ""
    )
    return Cut(
        name=f"padding of {padding.part}",
        kind="padding",
        length_mm=None,
        width_mm=padding.thickness_mm,
        area_mm2=area,
        count=1,
        why=told,
        price=_price(job, "padding", area and area / 10_000.0, 1),
    )

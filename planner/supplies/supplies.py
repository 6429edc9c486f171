"""Records of supplies: material choice, hardware, cuts, cost and cautions."""

from __future__ import annotations

from dataclasses import dataclass

from planner.finding import Vec3, Work
from planner.layers import Amount


@dataclass(frozen=True, slots=True, kw_only=True)
class Rejected:
    """A material that was not chosen, and why."""

    material: str
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialChoice:
    """The material, why it, and why not the others."""

    choice: str
    reasons: tuple[str, ...]
    rejected: tuple[Rejected, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class HardwareLine:
    """One line of the bag list, as built. ``length_mm`` None where it has no length or none was stated.

    ``count`` pieces are in the device, ``spares_n`` more lie in the bag; the price is that of all of them.
    """

    name: str
    kind: str
    size: str
    diameter_mm: float
    length_mm: float | None
    count: int
    spares_n: int
    for_parts: tuple[str, ...]
    why: str
    price: float | None
    work: str = ""
    """Drill, ream or bush work that goes with it at this scale."""
    instead_of: str = ""
    """The size that the job states, where another is taken."""
    printed: str = ""
    """The part that is printed as this piece, so that none is bought."""
    goes_with: str = ""
    """The piece that the job names and this goes with: its free nut, its washers, a bush."""
    steel_mm3: float | None = None
    """Steel in one piece, where it is no shank with a head: a bearing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchWork:
    """One piece of work by hand on an opening of every copy of a part; ``work`` is the same as data."""

    part: str
    count: int
    feature: str
    what: str
    at_mm: Vec3 | None
    work: Work | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One line of the cut list: cord, elastic, webbing or padding."""

    name: str
    kind: str
    length_mm: float | None
    width_mm: float | None
    area_mm2: float | None
    count: int
    why: str
    price: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One line of the cost, in the job's currency."""

    what: str
    amount: Amount
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """Cost of one device, and of one delivered device with the usual scrap in it."""

    currency: str
    lines: tuple[CostLine, ...]
    device: Amount
    delivered: Amount
    scrap_share: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution, shown once."""

    about: str
    text: str

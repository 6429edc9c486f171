"""Records of supplies: material choice, hardware, cuts, cost and cautions."""

from __future__ import annotations

from dataclasses import dataclass

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
    """One line of the bag list. ``length_mm`` None where it has no length or none was stated."""

    name: str
    kind: str
    size: str
    length_mm: float | None
    count: int
    for_parts: tuple[str, ...]
    why: str
    price: float | None
    work: str = ""
    """Drill, ream or bush work that goes with it at this scale."""


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

"""Family: how much oftener a plate fails because of what lies on it, by the printer's own log."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from planner.job import Printer
from planner.phrases import listed

Pieces = Mapping[tuple[str, str], int]
"""How many pieces of a part, with its duty, lie on a plate."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyRatio:
    """``ratio`` to the printer's common failure rate, with the interval that the log leaves, and why."""

    ratio: float
    low: float
    high: float
    why: str


def family_ratio(printer: Printer, pieces: Pieces) -> FamilyRatio:
    """Return the ratio of a plate: the mean of its pieces' ratios, as the log's failures were dealt over pieces.

    A part's own name is looked up first, then its duty; what the log does not know has the common rate.
    """
    known = dict(printer.fails_by)
    total = sum(pieces.values())
    sums, told = [0.0, 0.0, 0.0], dict[str, str]()
    for (part, duty), n in pieces.items():
        name = part if part in known else duty if duty in known else ""
        found = known.get(name)
        for k, value in enumerate((found.value, found.low, found.high) if found else (1.0, 1.0, 1.0)):
            sums[k] += n * value / total
        if found:
            told[name] = f"{name} {found.value:.2f} ({found.low:.2f} to {found.high:.2f}; {found.source})"
    if not told:
        why = "the printer's common rate: its log says nothing about the pieces on this plate"
        return FamilyRatio(ratio=1.0, low=1.0, high=1.0, why=why)
    why = f"{sums[0]:.2f} times the printer's common rate, by the pieces: {listed(told.values())}"
    return FamilyRatio(ratio=sums[0], low=sums[1], high=sums[2], why=why)

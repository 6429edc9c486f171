"""The stock length of a screw, post or pin: the stack at size, with the washers and the nut that go on it."""

from __future__ import annotations

from dataclasses import dataclass

from planner.job import Hardware, StockSize

LONG_MM = 3.0
"""A screw that protrudes by more than this catches on things, and the list says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stacked:
    """What lies on a screw beside the parts: its washers, and its nut with the thread that must come through it."""

    washers_n: int = 0
    washer_mm: float = 0.0
    nut_mm: float = 0.0
    nut: str = "nut"
    blind: bool = False
    """It ends in the plastic, and must not come out at the other side."""

    @property
    def mm(self) -> float:
        """All of it together."""
        return self.washers_n * self.washer_mm + self.nut_mm

    @property
    def told(self) -> str:
        """The sum in words; empty where nothing lies on it."""
        washers = f" + {self.washers_n} × {self.washer_mm:g} mm washer" if self.washers_n and self.washer_mm else ""
        return washers + (f" + {self.nut_mm:g} mm {self.nut}" if self.nut_mm else "")


def length_of(hardware: Hardware, stock: StockSize | None, factor: float, on_it: Stacked) -> tuple[float | None, str]:
    """Return the stock length at a scale and how it comes about; None where there is none, or none was stated."""
    if hardware.stack_mm is None:
        return None, "no length, as stack_mm is not stated: measure the stack on the printed parts"
    need = hardware.stack_mm * factor + on_it.mm
    told = f"{hardware.stack_mm:g} mm × {factor:.3f}{on_it.told} = {need:.1f} mm"
    lengths = stock.lengths_mm if stock else ()
    if on_it.blind:
        length = max((each for each in lengths if each <= need + 1e-9), default=None)
        if length is None:
            return None, f"{told}: no stock screw is that short"
        return length, f"{told} → stock {length:g} mm, not longer{_beyond(stock, length)}"
    length = min((each for each in lengths if each >= need - 1e-9), default=None)
    if length is None:
        return None, f"{told}: no stock length is listed for it"
    out = f", {length - need:.1f} mm too long: cut it or use a washer" if length - need > LONG_MM else ""
    return length, f"{told} → stock {length:g} mm{out}{_beyond(stock, length)}"


def _beyond(stock: StockSize | None, length_mm: float) -> str:
    """Say that a length is longer than the standard lists for a size, where it is."""
    if stock is None or stock.longest_mm is None or length_mm <= stock.longest_mm.value:
        return ""
    return (
        f"; longer than the {stock.longest_mm.value:g} mm that the standard lists for {stock.label}: "
        "ask before you count on it"
    )

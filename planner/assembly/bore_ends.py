"""Which printed bores serve a piece of hardware: the least and the largest, and what to drill to where it is tighter.

Clamped machine screws go by ISO 273; a screw that cuts its own thread goes by the share of that thread which the
bore leaves; everything else by the play of its fit.
"""

from __future__ import annotations

from planner.job import Fit, Hardware, HardwareTables, Limits, StockSize

SAME_SIZE_MM = 0.15
"""A stated diameter this near to a stock size means that size."""
INSERT_SHARES = (0.86, 0.92)
"""Printed bore of an insert in parts of its outside, where the tables do not list it; common practice, from memory."""
DRILL_DIGITS = 1
"""Twist drills are sold in steps of 0.1 mm (ISO 235)."""
CLAMPED = "machine-screw"
"""Kind of hardware whose bores ISO 273 gives, unless it is a pivot."""


def ends_of(hardware: Hardware, fit: Fit, limits: Limits, tables: HardwareTables) -> tuple[float, float] | None:
    """Return the least and the largest printed bore for a piece of hardware; None where the tables do not tell.

    An insert bites into a bore narrower than itself, so that its bore has ends of its own.
    """
    if hardware.kind != "insert":
        return printed_ends(hardware.seated_mm, hardware.kind, fit, limits, tables)
    stock = stock_of(tables, "insert", hardware.diameter_mm)
    if hardware.size_mm is None and stock is not None and stock.outside_mm is not None and stock.bores_mm:
        return stock.bores_mm[0].value, max(stock.bores_mm[0].value, INSERT_SHARES[1] * stock.outside_mm.value)
    size = hardware.size_mm
    return None if size is None else (INSERT_SHARES[0] * size, INSERT_SHARES[1] * size)


def drill_of(hardware: Hardware, fit: Fit, limits: Limits, tables: HardwareTables) -> float | None:
    """Return what the bore of a piece of hardware is drilled to where it is too tight."""
    if hardware.kind == "insert":
        ends = ends_of(hardware, fit, limits, tables)
        return ends and ends[0]
    return drilled_mm(hardware.seated_mm, hardware.kind, fit, limits, tables)


def printed_ends(
    diameter_mm: float, kind: str, fit: Fit, limits: Limits, tables: HardwareTables
) -> tuple[float, float] | None:
    """Return the least and the largest printed bore for hardware of a diameter; None where its root is unknown."""
    stock = stock_of(tables, kind, diameter_mm)
    if fit == "pilot":
        if stock is None or stock.root_mm is None:
            return None
        root = stock.root_mm.value
        return (
            bore_leaving(diameter_mm, root, limits.pilot_most_thread_share.value),
            bore_leaving(diameter_mm, root, limits.pilot_least_thread_share.value),
        )
    running = {
        "turning": limits.running_turning_mm,
        "sliding": limits.running_sliding_mm,
        "held": limits.running_held_mm,
    }
    play = {"turning": limits.play_turning_mm, "sliding": limits.play_sliding_mm, "held": limits.play_held_mm}
    most = diameter_mm + play[fit].value
    if kind == CLAMPED and fit != "turning" and stock is not None and stock.bores_mm:
        most = (stock.bores_mm[0] if fit == "held" else stock.bores_mm[-1]).value
    return diameter_mm + running[fit].value, most


def drilled_mm(diameter_mm: float, kind: str, fit: Fit, limits: Limits, tables: HardwareTables) -> float | None:
    """Return what a bore is drilled to where it is too tight: its least size, or a pilot's usual one."""
    ends = printed_ends(diameter_mm, kind, fit, limits, tables)
    if ends is None or fit != "pilot":
        return None if ends is None else ends[0]
    stock = stock_of(tables, kind, diameter_mm)
    assert stock is not None
    assert stock.root_mm is not None
    usual = round(bore_leaving(diameter_mm, stock.root_mm.value, limits.pilot_drill_thread_share.value), DRILL_DIGITS)
    return min(max(usual, ends[0]), ends[1])


def bore_leaving(diameter_mm: float, root_mm: float, share: float) -> float:
    """Return the bore that leaves a share of the thread's depth to hold: D − share · (D − root), geometry.

    >>> round(bore_leaving(3.505, 2.78, 0.75), 2)
    2.96
    """
    return diameter_mm - share * (diameter_mm - root_mm)


def stock_of(tables: HardwareTables, kind: str, diameter_mm: float) -> StockSize | None:
    """Return the stock size that a stated diameter means, or None."""
    sizes = tables.sizes(kind)
    near = min(sizes, key=lambda stock: abs(stock.diameter_mm.value - diameter_mm), default=None)
    return near if near and abs(near.diameter_mm.value - diameter_mm) <= SAME_SIZE_MM else None

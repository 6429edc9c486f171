"""The bag list: hardware with its stock lengths at this scale, and the work on its bores."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.finding import Finding, Verdict
from planner.job import Hardware, HardwareTables, Job, StockSize
from planner.supplies.supplies import HardwareLine

LONG_MM = 3.0
"""A screw that protrudes by more than this catches on things, and the list says so."""
SAME_SIZE_MM = 0.15


def hardware_list(job: Job, factor: float, findings: Sequence[Finding]) -> tuple[HardwareLine, ...]:
    """Return one line for each piece of hardware, at scale ``factor`` (1.0 as drawn).

    ``findings`` are the check's: the drilling and bushing they ask for stands beside the hardware.
    """
    return tuple(_line(job, hardware, factor, _work(hardware, findings)) for hardware in job.hardware)


def _work(hardware: Hardware, findings: Sequence[Finding]) -> str:
    """Return the work on this hardware's bores, each kind once."""
    told: Mapping[str, None] = dict.fromkeys(
        f"{finding.part}: {finding.remedy}"
        for finding in findings
        if finding.verdict is Verdict.GO_WITH_WORK and finding.feature.startswith(hardware.name + " in ")
    )
    return "; ".join(told)


def _line(job: Job, hardware: Hardware, factor: float, work: str) -> HardwareLine:
    """Return one line of the bag list."""
    stock = nearest_stock(job.tables, hardware)
    length, why = _length(job, hardware, stock, factor)
    price = hardware.price_each if hardware.price_each is not None else job.tables.prices.get(hardware.kind)
    return HardwareLine(
        name=hardware.name,
        kind=hardware.kind,
        size=stock.label if stock else f"{hardware.diameter_mm:g} mm",
        length_mm=length,
        count=hardware.count,
        for_parts=hardware.joins,
        why=why,
        price=None if price is None else price * hardware.count,
        work=work,
    )


def nearest_stock(tables: HardwareTables, hardware: Hardware) -> StockSize | None:
    """Return the stock size that a piece of hardware is, or None where no table lists it."""
    kind = "machine-screw" if hardware.kind in ("nut", "washer") else hardware.kind
    sizes = tables.sizes(kind)
    near = min(sizes, key=lambda size: abs(size.diameter_mm.value - hardware.diameter_mm), default=None)
    return near if near and abs(near.diameter_mm.value - hardware.diameter_mm) <= SAME_SIZE_MM else None


def _length(job: Job, hardware: Hardware, stock: StockSize | None, factor: float) -> tuple[float | None, str]:
    """Return the stock length and how it comes about."""
    if hardware.kind in ("nut", "washer", "insert"):
        return None, "keeps its size at every scale"
    if hardware.stack_mm is None:
        return None, "no length, as stack_mm is not stated: measure the stack on the printed parts"
    nut_mm = _nut_mm(job, hardware, stock)
    need = hardware.stack_mm * factor + nut_mm
    told = (
        f"{hardware.stack_mm:g} mm × {factor:.3f}" + (f" + {nut_mm:g} mm nut" if nut_mm else "") + f" = {need:.1f} mm"
    )
    lengths = stock.lengths_mm if stock else ()
    if hardware.kind == "wood-screw":  # it must not come out at the other side
        length = max((each for each in lengths if each <= need + 1e-9), default=None)
        return (
            length,
            f"{told} → stock {length:g} mm, not longer" if length else f"{told}: no stock screw is that short",
        )
    length = min((each for each in lengths if each >= need - 1e-9), default=None)
    if length is None:
        return None, f"{told}: no stock length is listed for it"
    out = f", {length - need:.1f} mm too long: cut it or use a washer" if length - need > LONG_MM else ""
    return length, f"{told} → stock {length:g} mm{out}"


def _nut_mm(job: Job, hardware: Hardware, stock: StockSize | None) -> float:
    """Return the height of the nut that goes with a machine screw, where the job lists one of that size."""
    if hardware.kind != "machine-screw" or stock is None or stock.nut_height_mm is None:
        return 0.0
    with_nut = any(
        other.kind == "nut" and nearest_stock(job.tables, other) is stock and set(other.joins) & set(hardware.joins)
        for other in job.hardware
    )
    return stock.nut_height_mm.value if with_nut else 0.0

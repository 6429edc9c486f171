"""The stock size that each piece of hardware has once it is built: as stated, or another where the check takes one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.assembly import ScrewGrip, screw_grips
from planner.finding import Finding
from planner.job import Hardware, HardwareTables, Job, StockSize
from planner.supplies.built.bench_work import works_on

SAME_SIZE_MM = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of hardware as built: ``hardware`` with the size that is taken, ``stated`` as the job has it."""

    hardware: Hardware
    stated: Hardware
    stock: StockSize | None
    because: str = ""
    """Why another size is taken; empty where the stated one stays."""
    held: ScrewGrip | None = None
    locking: bool = False
    """For a nut: it holds something that turns."""

    @property
    def changed(self) -> bool:
        """Whether another size is taken."""
        return self.hardware.diameter_mm != self.stated.diameter_mm


def pieces_of(job: Job, findings: Sequence[Finding]) -> tuple[Piece, ...]:
    """Return every piece of hardware in the job's order, with the size that it is built with.

    A nut, a washer or an insert follows the screw that it goes with.
    """
    taken = {one.name: _taken(one, findings) for one in job.hardware}
    held = screw_grips(job)
    holds: dict[int, tuple[ScrewGrip, ...]] = {
        n: tuple(one for one in held if any(holder is hardware for holder in one.by))
        for n, hardware in enumerate(job.hardware)
    }
    screws = {id(one.screw): one for one in held}
    return tuple(_piece(job, one, taken, holds[n], screws.get(id(one))) for n, one in enumerate(job.hardware))


def _taken(hardware: Hardware, findings: Sequence[Finding]) -> tuple[float, str] | None:
    """Return the diameter that the check takes instead of the stated one, and where; None where it takes none."""
    for finding, work in works_on(hardware.name, findings):
        if work.kind == "stock" and work.takes_mm is not None:
            where = finding.feature.rpartition(" in ")[2].partition(" ")[0]
            return work.takes_mm, f"{where} of {finding.part} is too wide for the stated size"
    return None


def _piece(
    job: Job,
    hardware: Hardware,
    taken: Mapping[str, tuple[float, str] | None],
    holds: Sequence[ScrewGrip],
    held: ScrewGrip | None,
) -> Piece:
    """Return one piece as built."""
    found = taken[hardware.name]
    because = f"{found[1]}" if found else ""
    diameter = found[0] if found else hardware.diameter_mm
    for screw in _goes_with(job, hardware, holds):
        larger = taken[screw.name]
        if larger is not None:
            diameter, because = larger[0], f"{screw.name} is taken in that size"
    # a seat's own size is that of the stated piece; of another one the tables tell it
    size = hardware.size_mm if diameter == hardware.diameter_mm else None
    built = replace(hardware, diameter_mm=diameter, size_mm=size)
    return Piece(
        hardware=built,
        stated=hardware,
        stock=nearest_stock(job.tables, built),
        because=because,
        held=held,
        locking=hardware.kind == "nut" and any(one.turns for one in holds),
    )


def _goes_with(job: Job, hardware: Hardware, holds: Sequence[ScrewGrip]) -> list[Hardware]:
    """Return the screws that a nut or insert holds, or that a washer lies under."""
    if hardware.kind == "washer":
        return [
            one
            for one in job.hardware
            if one.kind == "machine-screw"
            and abs(one.diameter_mm - hardware.diameter_mm) <= SAME_SIZE_MM
            and set(one.joins) & set(hardware.joins)
        ]
    return [one.screw for one in holds]


def nearest_stock(tables: HardwareTables, hardware: Hardware) -> StockSize | None:
    """Return the stock size that a piece of hardware is, or None where no table lists it."""
    sizes = tables.sizes(hardware.kind)
    if hardware.kind == "bearing":
        sizes = tuple(
            one for one in sizes if one.outside_mm and abs(one.outside_mm.value - hardware.seated_mm) <= SAME_SIZE_MM
        )
    if hardware.kind == "belt":
        return _belt(sizes, hardware)
    near = min(sizes, key=lambda size: abs(size.diameter_mm.value - hardware.diameter_mm), default=None)
    return near if near and abs(near.diameter_mm.value - hardware.diameter_mm) <= SAME_SIZE_MM else None


def _belt(sizes: Sequence[StockSize], hardware: Hardware) -> StockSize | None:
    """Return the toothed belt of a pitch; None for a round one, and for a pitch that no table lists."""
    if hardware.pitch_mm is None:
        return None
    near = min(sizes, key=lambda size: abs(_pitch(size) - (hardware.pitch_mm or 0.0)), default=None)
    return near if near and abs(_pitch(near) - hardware.pitch_mm) <= 0.01 else None


def _pitch(size: StockSize) -> float:
    """Return the pitch of a belt; infinite where the table has none."""
    return size.pitch_mm.value if size.pitch_mm else float("inf")

"""The ``[size]`` table of a job file and its measures."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

from planner.errors import nearest
from planner.job.file.table import Table
from planner.job.measured_size import Measure, MeasureKind, MeasureTool, Side, Size, Station
from planner.job.profiles.body_sizes import read_bodies

SIDES: tuple[Side, ...] = get_args(Side)
TOOLS: tuple[MeasureTool, ...] = get_args(MeasureTool)
KINDS: tuple[MeasureKind, ...] = get_args(MeasureKind)
BODY_MM_LEAST, BODY_MM_MOST = 0.5, 100_000.0
"""Far beyond any body, so that a measure in the wrong unit is a finding and not a refusal."""


def read_size(table: Table) -> Size:
    """Read scale, side and measures; everything may be left out."""
    size = table.table_or_empty("size")
    measures = tuple(_measure(measure) for measure in size.tables("measure"))
    found = Size(
        percent=size.number_or_none("percent", low=1.0, high=1000.0),
        side=size.word("side", SIDES) if size.has("side") else None,
        drawn_for=size.word("drawn_for", SIDES) if size.has("drawn_for") else None,
        governs=_governs(size, [measure.name for measure in measures]),
        measures=measures,
        guessed=size.guessed(),
    )
    size.done()
    return found


def _governs(table: Table, names: Sequence[str]) -> str | None:
    """Return the name of the measure that governs."""
    if not table.has("governs"):
        return None
    name = table.text("governs")
    if name not in names:
        table.refuse("governs", f"no measure is called '{name}'", nearest(name, names))
    return name


def _measure(table: Table) -> Measure:
    """Read one measure."""
    measure = Measure(
        name=table.text("name"),
        kind=table.word("kind", KINDS),
        recipient_mm=table.number("recipient_mm", low=BODY_MM_LEAST, high=BODY_MM_MOST),
        device_mm=_device(table),
        padding_mm=table.number_or("padding_mm", 0.0, high=200.0),
        ease_mm=table.number_or("ease_mm", 0.0, low=-100.0, high=200.0),
        taken=table.day("taken"),
        how=table.word("how", TOOLS) if table.has("how") else None,
        off_mm=table.number_or_none("off_mm", high=BODY_MM_MOST),
        body=read_bodies()[table.word("body", tuple(read_bodies()))] if table.has("body") else None,
        guessed=table.guessed(),
    )
    if measure.off_mm is not None and measure.off_mm >= measure.recipient_mm:
        told = f"{measure.off_mm:g} mm is as much as the {measure.recipient_mm:g} mm that were measured"
        table.refuse("off_mm", told, "state how far the measure may be off, as off_mm = 2.0")
    table.done()
    return measure


def _device(table: Table) -> float | Station:
    """Read the device's own measure: ``device_mm``, or ``device = { part, station_percent }``."""
    inner = table.has("device_mm") and isinstance(table.raw["device_mm"], dict)
    if table.has("device") or inner:
        station = table.table("device_mm" if inner else "device")
        found = Station(
            part=station.text("part"), station_percent=station.number("station_percent", low=0.0, high=100.0)
        )
        station.done()
        if not inner and table.has("device_mm"):
            table.refuse("device", "device and device_mm are both stated", "keep one of them")
        return found
    return table.number("device_mm", low=BODY_MM_LEAST, high=BODY_MM_MOST)

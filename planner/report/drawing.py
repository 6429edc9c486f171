"""Drawings as inline SVG: a plate to scale, and the window of sizes as bars on one common scale."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from html import escape

import shapely

from planner.fit import Interval, Reach, Window
from planner.job import Bed, bed_edge, usable_ground
from planner.plates import Plate, placed_outline

Rings = tuple[tuple[tuple[float, float], ...], ...]
Place = Callable[[float], float]
"""From a percent to a place on the chart."""


def plate_svg(plate: Plate, rings: Mapping[str, Rings], bed: Bed) -> str:
    """Return a plate to scale, seen from above, front edge below, every copy with its number in the legend."""
    width, depth = bed.size_mm
    shapes = [placed_outline(rings[p.part], p) for p in plate.placements]
    numbers = {part: index for index, part in enumerate(dict.fromkeys(p.part for p in plate.placements), 1)}
    told = ", ".join(f"{p.part} {p.copy}" for p in plate.placements)
    lines = [
        (
            f'<svg class="bed" viewBox="-2 -2 {width + 4:g} {depth + 10:g}" role="img" '
            f'aria-label="Plate {plate.number} from above: {escape(told)}">'
        ),
        _ground(bed),
    ]
    for k, (placement, shape) in enumerate(zip(plate.placements, shapes, strict=True), 1):
        point = shapely.maximum_inscribed_circle(shape, tolerance=0.5)
        middle, room = point.coords[0], point.length
        size = max(3.2, min(7.0, 1.1 * room))
        lines.append(
            f'<g data-part="{escape(placement.part)}" data-copy="{placement.copy}">'
            f'<path class="copy" fill-rule="evenodd" d="{_path(shape, depth)}"><title>{escape(placement.part)} '
            f"{placement.copy}, at {placement.x_mm:.1f}, {placement.y_mm:.1f} mm, turned {placement.turn_deg:.1f}°"
            f"{f', no. {k} in turn' if plate.in_turn else ''}"
            f'</title></path><text x="{middle[0]:.1f}" y="{depth - middle[1] + size / 3:.1f}" '
            f'font-size="{size:.1f}">{k if plate.in_turn else numbers[placement.part]}</text></g>'
        )
    lines.append(
        f'<text class="edge" x="{width / 2:g}" y="{depth + 7:g}" font-size="5">front · {width:g} mm</text></svg>'
    )
    return "".join(lines)


def _ground(bed: Bed) -> str:
    """Return the bed and the line of its margins."""
    width, depth = bed.size_mm
    if bed.shape == "circle":
        r = width / 2
        edge = (
            f'<circle class="ground" cx="{r:g}" cy="{r:g}" r="{r:g}"/>'
            f'<circle class="margin" cx="{r:g}" cy="{r:g}" r="{r - bed.margin_mm:g}"/>'
        )
    elif bed.shape == "polygon":
        inner = usable_ground(bed, zones=False)
        edge = f'<path class="ground" d="{_path(bed_edge(bed), depth)}"/>' + "".join(
            f'<path class="margin" d="{_path(part, depth)}"/>' for part in getattr(inner, "geoms", [inner])
        )
    else:
        m, (w, d) = bed.margin_mm, bed.usable_mm
        edge = (
            f'<rect class="ground" width="{width:g}" height="{depth:g}"/>'
            f'<rect class="margin" x="{m:g}" y="{m:g}" width="{w:g}" height="{d:g}"/>'
        )
    return edge + "".join(
        f'<path class="zone" d="{_path(shapely.Polygon(zone), depth)}"><title>kept clear</title></path>'
        for zone in bed.zones_mm
    )


def _path(shape: shapely.Polygon, depth_mm: float) -> str:
    """Return an outline as a path, y turned downward as SVG wants it."""
    rings = [shape.exterior, *shape.interiors]
    return " ".join(
        "M" + "L".join(f"{x:.2f},{depth_mm - y:.2f}" for x, y in list(ring.simplify(0.05).coords)[:-1]) + "Z"
        for ring in rings
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A bar on the common scale, in percent of its width, with its ends in words."""

    left: float
    width: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the window chart."""

    name: str
    go: tuple[Band, ...]
    workable: tuple[Band, ...]
    text: str
    low: str
    high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """The window chart: its scale's ends in percent, ticks as (place, label), the job's own size, and its rows."""

    low: float
    high: float
    ticks: tuple[tuple[float, str], ...]
    here: float
    rows: tuple[Row, ...]


def window_chart(window: Window, parts: Sequence[Window], percent: float) -> Chart:
    """Return all windows on one scale that holds every end near the job's size."""
    ends = [e for w in (window, *parts) for i in w.workable.intervals for e in (i.low_percent, i.high_percent) if e]
    near = [e for e in ends if 0.4 * percent <= e <= 1.9 * percent]
    low = max(10.0 * int(min([*near, 0.8 * percent]) / 10.0), 2.0)  # no rule is asked about nothing
    high = 10.0 * (int(max([*near, 1.2 * percent]) / 10.0) + 1)
    step = 10.0 if high - low <= 100 else 20.0

    def place(value: float) -> float:
        return 100.0 * (min(max(value, low), high) - low) / (high - low)

    ticks = []
    value = low
    while value <= high + 1e-9:
        ticks.append((place(value), f"{value:.0f}"))
        value += step
    rows = [_row("the whole device", window, place), *(_row(part.part, part, place) for part in parts)]
    return Chart(low=low, high=high, ticks=tuple(ticks), here=place(percent), rows=tuple(rows))


def _row(name: str, window: Window, place: Place) -> Row:
    """Return one line of the chart."""
    nearest = window.workable.nearest
    low = nearest.low_cause.why if nearest and nearest.low_cause else ""
    high = nearest.high_cause.why if nearest and nearest.high_cause else ""
    if nearest is None and window.workable.causes:
        low = window.workable.causes[0].why
    return Row(
        name=name,
        go=_bands(window.go, place),
        workable=_bands(window.workable, place),
        text=", ".join(interval_text(i) for i in window.workable.intervals) or "no size",
        low=low,
        high=high,
    )


def _bands(reach: Reach, place: Place) -> tuple[Band, ...]:
    """Return the intervals of a reach as bars."""
    bands = []
    for interval in reach.intervals:
        left, right = place(interval.low_percent or 0.0), place(interval.high_percent or 1e9)
        bands.append(Band(left=left, width=max(right - left, 0.4), text=interval_text(interval)))
    return tuple(bands)


def interval_text(interval: Interval) -> str:
    """Return an interval in words."""
    low, high = interval.low_percent, interval.high_percent
    if low is None:
        return "any size" if high is None else f"up to {high:.1f} %"
    return f"from {low:.1f} %" if high is None else f"{low:.1f} to {high:.1f} %"

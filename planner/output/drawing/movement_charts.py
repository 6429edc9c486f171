"""Movement in pictures: a joint's free range over what it needs, and the pull on a cord from open to closed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from planner.mechanism import CordMove, JointMove

BAR_WIDE, BAR_HIGH = 180.0, 26.0
FULL_DEG = 180.0
"""Shown where nothing stops a joint."""
WIDE, HIGH = 420.0, 190.0
LEFT, RIGHT, TOP, BOTTOM = 58.0, 20.0, 16.0, 36.0


def range_bar(joint: JointMove) -> str:
    """Return one joint's range as SVG: the free range as a bar, what is needed as a bracket below it, 0 as a tick."""
    free = tuple(side * FULL_DEG if end is None else end for end, side in zip(joint.free_deg, (-1.0, 1.0), strict=True))
    needs = joint.needs_deg or (0.0, 0.0)
    low, high = min(free[0], needs[0], 0.0), max(free[1], needs[1], 0.0)
    span = max(high - low, 1e-9)

    def x(value: float) -> float:
        return 4.0 + (value - low) / span * (BAR_WIDE - 8.0)

    bar = f'<rect x="{x(free[0]):.1f}" y="6" width="{max(x(free[1]) - x(free[0]), 1.0):.1f}" height="8" class="free"/>'
    tick = f'<path d="M{x(0.0):.1f} 2V18" class="zero"/>'
    bracket = ""
    if joint.needs_deg is not None:
        a, b = x(needs[0]), x(needs[1])
        bracket = f'<path d="M{a:.1f} 17V22H{b:.1f}V17" class="needs"/>'
    told = f"{joint.name}: the bar is the free range, the bracket what is needed, the tick the drawn place"
    return (
        f'<svg class="reach" viewBox="0 0 {BAR_WIDE:g} {BAR_HIGH:g}" width="{BAR_WIDE:g}" height="{BAR_HIGH:g}" '
        f'role="img" aria-label="{_escaped(told)}">{bar}{tick}{bracket}</svg>'
    )


def travel_bar(cord: CordMove) -> str:
    """Return a cord's travel as SVG: what the body gives as a bar, what closing needs as a bracket; empty if unknown.

    Where nobody stated what the body gives, the bar is empty.
    """
    asks = cord.asks_mm
    if asks is None:
        return ""
    has = cord.has_mm or 0.0
    span = max(has, asks, 1e-9)

    def x(value: float) -> float:
        return 4.0 + value / span * (BAR_WIDE - 8.0)

    bar = f'<rect x="4" y="6" width="{x(has) - 4.0:.1f}" height="8" class="free"/>'
    bracket = f'<path d="M{x(0.0):.1f} 17V22H{x(asks):.1f}V17" class="needs"/>'
    gives = (
        f"the bar is what the body gives, {has:.1f} mm" if cord.has_mm is not None else "what the body gives is open"
    )
    told = f"{cord.name}: {gives}; the bracket is what closing needs, {asks:.1f} mm"
    return (
        f'<svg class="reach" viewBox="0 0 {BAR_WIDE:g} {BAR_HIGH:g}" width="{BAR_WIDE:g}" height="{BAR_HIGH:g}" '
        f'role="img" aria-label="{_escaped(told)}">{bar}{bracket}</svg>'
    )


def pull_curve(cord: CordMove) -> str:
    """Return the pull over the joint's angle as SVG, the expected line in its band; empty where unknown.

    Where several fingers share the pull, a dashed line for each cord lies under that of the hand, with its name.
    """
    if len(cord.curve_n) < 2:
        return ""
    angles = [point[0] for point in cord.curve_n]
    most = max(point[3] for point in cord.curve_n) or 1.0
    span = max(max(angles) - min(angles), 1e-9)
    floor = HIGH - BOTTOM

    def at(angle: float, newtons: float) -> str:
        x = LEFT + (angle - min(angles)) / span * (WIDE - LEFT - RIGHT)
        return f"{x:.1f},{TOP + (1.0 - newtons / most) * (floor - TOP):.1f}"

    band = _line(at, [(p[0], p[1]) for p in cord.curve_n] + [(p[0], p[3]) for p in reversed(cord.curve_n)])
    line = _line(at, [(p[0], p[2]) for p in cord.curve_n])
    axes = f'<path d="M{LEFT} {TOP}V{floor}H{WIDE - RIGHT}" fill="none" stroke="currentColor" stroke-width="1"/>'
    alone = f"; the pull on {_escaped(cord.name)} alone" if cord.together else ""
    words = (
        f'<text x="{LEFT}" y="{floor + 15}">{min(angles):.0f}°</text>'
        f'<text x="{WIDE - RIGHT}" y="{floor + 15}" text-anchor="end">{max(angles):.0f}°</text>'
        f'<text x="{(LEFT + WIDE - RIGHT) / 2}" y="{floor + 29}" text-anchor="middle">'
        f"angle of {_escaped(cord.joint)}{alone}</text>"
        f'<text x="{LEFT - 5}" y="{TOP + 8}" text-anchor="end">{most:.0f} N</text>'
        f'<text x="{LEFT - 5}" y="{floor}" text-anchor="end">0 N</text>'
        f'<text x="{LEFT - 5}" y="{(TOP + floor) / 2 + 4}" text-anchor="end">pull</text>'
    )
    each = "".join(
        f'<polyline points="{_line(at, points)}" fill="none" stroke="currentColor" stroke-dasharray="4 3"/>'
        f'<text x="{LEFT + 4 + 90 * n}" y="{TOP - 4}">{_escaped(name)}: {max(p[1] for p in points):.0f} N</text>'
        for n, (name, points) in enumerate(cord.each_n)
    )
    told = f"Pull on {cord.name} over the angle: a line as expected, in a band from the least friction to the most"
    told += f"; dashed, each cord of {len(cord.each_n)}" if cord.each_n else ""
    return (
        f'<svg class="trade" viewBox="0 0 {WIDE:g} {HIGH:g}" role="img" aria-label="{_escaped(told)}">{axes}'
        f'<polygon points="{band}" class="band"/>'
        f'<polyline points="{line}" fill="none" stroke="currentColor" stroke-width="1.5"/>{each}{words}</svg>'
    )


def _line(at: Callable[[float, float], str], points: Sequence[tuple[float, float]]) -> str:
    """Return points as SVG takes them."""
    return " ".join(at(angle, newtons) for angle, newtons in points)


def _escaped(text: str) -> str:
    """Return a text that may stand in an attribute or an element."""
    return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")

"""A pattern as SVG: its outline with what is cut out of it is one path, in mm."""

from __future__ import annotations

from html import escape

from planner.output.pattern.pattern_words import dart_ticks
from planner.pattern import Flat

MARGIN_MM = 1.0
"""So that the line is seen whole."""
CROSS_MM = 2.0
"""Half of the cross where an opening is not cut out."""


def pattern_svg(flat: Flat, title: str) -> str:
    """Return a pattern as an SVG file of true size, y downward as SVG has it.

    The path ``outline`` holds the outline and all cut-outs, by the even-odd rule; crosses of ``marks`` and ticks of
    ``darts`` are only drawn, and no closed shape, so that the file can be the ``outline`` of a ``[[padding]]``.
    """
    wide, high = (side + 2 * MARGIN_MM for side in flat.size_mm)

    def at(x: float, y: float) -> str:
        return f"{x + MARGIN_MM:.3f},{high - MARGIN_MM - y:.3f}"

    outline = "".join("M" + "L".join(at(x, y) for x, y in ring) + "Z" for ring in flat.rings)
    crosses = "".join(
        f"M{at(x - CROSS_MM, y)}L{at(x + CROSS_MM, y)}M{at(x, y - CROSS_MM)}L{at(x, y + CROSS_MM)}"
        for x, y in flat.marks
    )
    line = 'fill="none" stroke="#000" stroke-width="0.2"'
    marks = f'<path id="marks" {line} d="{crosses}"/>' if crosses else ""
    ticks = "".join(f"M{at(*one)}L{at(*other)}" for _, one, other in dart_ticks(flat))
    marks += f'<path id="darts" {line} d="{ticks}"/>' if ticks else ""
    size = f'width="{wide:.3f}mm" height="{high:.3f}mm" viewBox="0 0 {wide:.3f} {high:.3f}"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size}><title>{escape(title)}</title>'
        f'<path id="outline" {line} fill-rule="evenodd" d="{outline}"/>{marks}</svg>\n'
    )

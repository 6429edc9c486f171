"""What is said about patterns wherever they are shown."""

from __future__ import annotations

from planner.pattern import Flat, Pattern

BUCK_CAUTION = (
    "Hot plastic and heated foam burn skin. Form on the buck, never on the person; try it on only when it is cold. A "
    "buck softens, too: print it in a material that stays stiff above the heat that you form with."
)
"""About heat; forming temperatures are those of the sheet's maker."""
SKIN_SIDE = "Drawn with the skin side facing you."


def method_words(flat: Flat) -> str:
    """Return how a pattern was laid flat, in words.

    >>> method_words(Flat(rings=(), marks=(), method="cone", area_mm2=1.0, layer_mm2=1.0))
    'exact: the surface is part of a cone'
    """
    if flat.method == "least stretch":
        return f"stretched by up to {flat.stretch_percent:.1f} %, edges off by {flat.edge_mm:.1f} mm in all"
    shape = {"plane": "a plane", "cylinder": "part of a cylinder", "cone": "part of a cone"}[flat.method]
    return f"exact: the surface is {shape}"


def size_words(pattern: Pattern, flat: Flat) -> str:
    """Return thickness, size and area of a pattern."""
    wide, high = flat.size_mm
    return f"{pattern.thick_mm:g} mm thick, {wide:.1f} × {high:.1f} mm, {flat.area_mm2 / 100:.1f} cm²"


def mark_words(flat: Flat) -> str:
    """Return what crosses mean; empty where there are none."""
    if not flat.marks:
        return ""
    return "Crosses mark small openings under the padding: leave it whole there, so that it covers what lies in them."

"""What is said about patterns wherever they are shown."""

from __future__ import annotations

import math

from planner.pattern import Flat, Pattern

BUCK_CAUTION = (
    "Hot plastic and heated foam burn skin. Form on the buck, never on the person; try it on only when it is cold. A "
    "buck softens, too: print it in a material that stays stiff above the heat that you form with."
)
"""About heat; forming temperatures are those of the sheet's maker."""
TICK_SHARES, TICK_MM = (0.15, 0.5), 3.0
"""Where along a dart its sides are marked, from the rim, and how far the marks go into the padding."""
SKIN_SIDE = "Drawn with the skin side facing you."


def method_words(flat: Flat) -> str:
    """Return how a pattern was laid flat, in words.

    >>> method_words(Flat(rings=(), marks=(), method="cone", area_mm2=1.0, layer_mm2=1.0))
    'exact: the surface is part of a cone'
    """
    if flat.method == "least stretch":
        darts = f" with {len(flat.darts)} darts" if flat.darts else ""
        return f"stretched by up to {flat.stretch_percent:.1f} %{darts}, edges off by {flat.edge_mm:.1f} mm in all"
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


def dart_words(flat: Flat) -> str:
    """Return what is done with darts; empty where there are none."""
    if not flat.darts:
        return ""
    opens, long = (max(one.opens_mm for one in flat.darts), max(one.long_mm for one in flat.darts))
    return (
        f"{len(flat.darts)} darts, up to {long:.0f} mm deep and {opens:.1f} mm open at the rim: cut along both lines, "
        "and close each so that ticks with one number meet."
    )


def dart_ticks(flat: Flat) -> list[tuple[str, tuple[float, float], tuple[float, float]]]:
    """Return the marks along darts: a number, and both ends of a short line across the cut, on either side of it.

    >>> dart_ticks(Flat(rings=(), marks=(), method="plane", area_mm2=1.0, layer_mm2=1.0))
    []
    """
    ticks = []
    for n, dart in enumerate(flat.darts, 1):
        for share in TICK_SHARES:
            for at, other in (pair := dart.matching(share), pair[::-1]):
                ahead = dart.matching(share + 0.02)[0 if at == pair[0] else 1]
                along = (ahead[0] - at[0], ahead[1] - at[1])
                across = (-along[1], along[0])
                away = -1.0 if across[0] * (other[0] - at[0]) + across[1] * (other[1] - at[1]) > 0.0 else 1.0
                long = away * TICK_MM / max(math.hypot(*across), 1e-9)
                ticks.append((str(n), at, (at[0] + long * across[0], at[1] + long * across[1])))
    return ticks

"""A still picture of a loaded part: its weakest places numbered, its weakest section outlined; readable in greys."""

from __future__ import annotations

import base64
import math
from html import escape

import numpy as np
from numpy.typing import NDArray

from planner.output.drawing.part_picture import part_view
from planner.output.strength_view.loaded_part import LoadedPart

Floats = NDArray[np.float64]
WIDE_PX, HIGH_PX = 300, 210
SPOT_PX = 9.0


def weakest_picture(shown: LoadedPart) -> str:
    """Return the picture as SVG; empty where no place is known."""
    if not shown.places:
        return ""
    view = part_view(shown.part.posed, WIDE_PX, HIGH_PX)

    def at(place: Floats) -> tuple[float, float]:
        x, y = view.at_px((float(place[0]), float(place[1]), float(place[2])))
        return min(max(x, SPOT_PX), WIDE_PX - SPOT_PX), min(max(y, SPOT_PX), HIGH_PX - SPOT_PX)

    rings = [[at(place) for place in ring] for ring in shown.section]
    outline = "".join("M" + "L".join(f"{x:.1f},{y:.1f}" for x, y in ring) + "Z" for ring in rings)
    seen = [at(place) for _, place in shown.places]
    spots = "".join(
        f'<circle class="spot" cx="{x:.1f}" cy="{y:.1f}" r="{SPOT_PX:g}"/><text x="{x:.1f}" y="{y + 4:.1f}">{n}</text>'
        for n, (x, y) in enumerate(seen, start=1)
    )
    if rings:
        x, y = max(rings[0], key=lambda end: min(math.dist(end, spot) for spot in seen))
        spots += f'<text class="letter" x="{x:.1f}" y="{max(y - 4.0, 12.0):.1f}">S</text>'
    told = "; ".join(f"place {n} at {percent:.0f} %" for n, (percent, _) in enumerate(shown.places, start=1))
    png = base64.b64encode(view.png).decode()
    return (
        f'<svg class="weakest" viewBox="0 0 {WIDE_PX} {HIGH_PX}" role="img" '
        f'aria-label="{escape(shown.name)}, weakest places: {told}">'
        f'<image href="data:image/png;base64,{png}" width="{WIDE_PX}" height="{HIGH_PX}"/>'
        f'<path class="halo" d="{outline}"/><path class="section" d="{outline}"/>{spots}</svg>'
    )

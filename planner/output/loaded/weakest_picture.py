"""A still picture of a loaded part: its weakest places numbered, its weakest section outlined; readable in greys."""

from __future__ import annotations

import base64
from html import escape

from planner.output.drawing.part_picture import part_view
from planner.output.loaded.loaded_part import LoadedPart

WIDE_PX, HIGH_PX = 300, 210
SPOT_PX = 9.0


def weakest_picture(shown: LoadedPart) -> str:
    """Return the picture as SVG; empty where no place is known."""
    if not shown.places:
        return ""
    view = part_view(shown.part.posed, WIDE_PX, HIGH_PX)
    outline = ""
    for ring in shown.section:
        points = [view.at_px((float(x), float(y), float(z))) for x, y, z in ring]
        outline += "M" + "L".join(f"{x:.1f},{y:.1f}" for x, y in points) + "Z"
    spots = ""
    for number, (_, at) in enumerate(shown.places, start=1):
        x, y = view.at_px((float(at[0]), float(at[1]), float(at[2])))
        x_px, y_px = (min(max(v, SPOT_PX), most - SPOT_PX) for v, most in ((x, WIDE_PX), (y, HIGH_PX)))
        spots += (
            f'<circle class="spot" cx="{x_px:.1f}" cy="{y_px:.1f}" r="{SPOT_PX:g}"/>'
            f'<text x="{x_px:.1f}" y="{y_px + 4:.1f}">{number}</text>'
        )
    told = "; ".join(f"place {n} at {percent:.0f} %" for n, (percent, _) in enumerate(shown.places, start=1))
    png = base64.b64encode(view.png).decode()
    return (
        f'<svg class="weakest" viewBox="0 0 {WIDE_PX} {HIGH_PX}" role="img" '
        f'aria-label="{escape(shown.name)}, weakest places: {told}">'
        f'<image href="data:image/png;base64,{png}" width="{WIDE_PX}" height="{HIGH_PX}"/>'
        f'<path class="halo" d="{outline}"/><path class="section" d="{outline}"/>{spots}</svg>'
    )

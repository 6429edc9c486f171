"""Closed-form truths about the Heron, from its dimensions: ``python -m sample_parts.truths`` writes expected.toml."""

from __future__ import annotations

import math
from pathlib import Path

from sample_parts.dimensions import HERON as D

FILE = Path(__file__).parent / "heron" / "expected.toml"


def ngon_mm2(diameter: float, n: int) -> float:
    """Return the area of a regular n-gon with its corners on a circle: n/2 r2 sin(2 pi / n)."""
    return n / 2 * (diameter / 2) ** 2 * math.sin(2 * math.pi / n)


def inscribed_mm(diameter: float, n: int) -> float:
    """Return the diameter between the flats: d cos(pi / n)."""
    return diameter * math.cos(math.pi / n)


def frustum_mm3(low: float, high: float, height: float) -> float:
    """Return the volume between two similar sections: h/3 (A + B + sqrt(A B))."""
    return height / 3 * (low + high + math.sqrt(low * high))


def pulley_mm3() -> float:
    """Return the pulley's volume: cylinders and cones of a 72-gon about its axis, less the bore."""
    half, r = D.pulley_thick / 2, D.pulley_radius
    area = [ngon_mm2(2 * r, 72), ngon_mm2(2 * (r - 2.2), 72)]
    flange, groove = area[0] * 1.7, area[1] * 0.4
    cone = frustum_mm3(area[0], area[1], half - 1.7 - 0.4)
    return 2 * (flange + cone + groove) - ngon_mm2(D.pulley_bore, D.bore_n) * D.pulley_thick


def cap_mm3() -> float:
    """Return the cap's volume: a 64-gon prism and a frustum, less its blind bore."""
    wide, narrow = ngon_mm2(2 * D.cap_radius, 64), ngon_mm2(2 * (D.cap_radius - 2.0), 64)
    return wide * (D.cap_high - 2.0) + frustum_mm3(wide, narrow, 2.0) - ngon_mm2(D.cap_bore, D.bore_n) * D.cap_deep


def bore_toml(drawn: float, n: int, depth: float, axis: str, *, through: bool) -> str:
    """Return one bore as TOML."""
    told = f"drawn_diameter_mm = {drawn}, diameter_mm = {inscribed_mm(drawn, n):.6f}, facets_n = {n}"
    return f'{{ {told}, depth_mm = {depth}, axis = "{axis}", through = {str(through).lower()} }}'


def text() -> str:
    """Return expected.toml."""
    bores = {
        "pulley": [bore_toml(D.pulley_bore, D.bore_n, D.pulley_thick, "z", through=True)],
        "cap": [bore_toml(D.cap_bore, D.bore_n, D.cap_deep, "z", through=False)],
        "link": [bore_toml(D.screw_bore, D.bore_n, D.link_thick, "z", through=True)] * 2,
        "anchor": [
            bore_toml(D.channel, D.channel_n, D.anchor[0], "x", through=True),
            bore_toml(D.pilot_bore, D.bore_n, D.pilot_deep, "z", through=False),
        ],
        "jaw": [bore_toml(D.post_bore, D.bore_n, D.clevis_slot - 2 * D.gap, "z", through=True)],
    }
    lines = ["# Closed-form truths from the Heron's dimensions, not measured on its meshes. Lengths in mm, at 100 %."]
    lines += ["", "[pulley]", f"volume_mm3 = {pulley_mm3():.6f}", "bores = [" + ", ".join(bores["pulley"]) + "]"]
    lines += ["", "[cap]", f"volume_mm3 = {cap_mm3():.6f}", "bores = [" + ", ".join(bores["cap"]) + "]"]
    for name, wall in (("link", D.link_thick), ("anchor", None), ("jaw", None)):
        lines += ["", f"[{name}]"]
        lines += [f"least_wall_mm = {wall}"] if wall else []
        lines += ["bores = [", *(f"  {bore}," for bore in bores[name]), "]"]
    slot = f"{{ width_mm = {D.strap_slot_wide}, length_mm = {D.strap_slot} }}"
    lines += ["", "[cuff]", f"slots = [{', '.join([slot] * 4)}]"]
    lines += ["", "[buckle]", f"slots = [{', '.join([slot] * 2)}]"]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    FILE.write_text(text(), encoding="utf-8")

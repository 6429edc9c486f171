"""What the device weighs on the arm: printed parts, metal, padding and straps."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.digits import told_apart
from planner.finding import Evidence, Finding, Verdict
from planner.job import Job
from planner.supplies.supplies import Cut, HardwareLine

STEEL_G_CM3 = 7.85
"""Handbook value for carbon steel, from memory."""
FOAM_G_CM3 = 0.15
"""Closed-cell foam, 0.1 to 0.2, from memory."""
METAL = ("binding-post", "dowel-pin", "machine-screw", "wood-screw", "nut", "washer", "insert", "bearing")
WEBBING_G_M2 = 600.0
"""Nylon webbing by area, from memory."""


def worn_g(printed_g: float, hardware: Sequence[HardwareLine], cuts: Sequence[Cut]) -> float:
    """Return the worn mass in g; metal is estimated as solid steel cylinders of shank and head.

    Spares, bushes and belts are left out. Support and brim are not in ``printed_g``: they stay on the bench.
    """
    metal = sum(_steel_mm3(line) * line.count for line in hardware if line.kind in METAL and not line.printed)
    foam = sum((cut.area_mm2 or 0.0) * (cut.width_mm or 0.0) for cut in cuts if cut.kind == "padding")
    webbing = sum((cut.length_mm or 0.0) * (cut.width_mm or 0.0) * cut.count for cut in cuts if cut.kind == "webbing")
    return printed_g + metal / 1000 * STEEL_G_CM3 + foam / 1000 * FOAM_G_CM3 + webbing / 1e6 * WEBBING_G_M2


def _steel_mm3(line: HardwareLine) -> float:
    """Return the steel in one piece: what is known of it, else a shank with a head."""
    if line.steel_mm3 is not None:
        return line.steel_mm3
    return math.pi / 4 * line.diameter_mm**2 * (line.length_mm or line.diameter_mm) * 1.3


def mass_findings(job: Job, worn: float | None, ends: Sequence[float] = ()) -> tuple[Finding, ...]:
    """Compare the worn mass with its limit: over it is a hold, since only the wearer's side can lift it.

    ``ends`` are what it may weigh as well, within the range of the material's density.
    """
    limit = job.use.mass_limit_g
    if limit is None or worn is None:
        return ()
    over = worn > limit
    weighs, allowed = told_apart(worn, limit, 0)
    return (
        Finding(
            rule="mass.over",
            part="",
            feature="worn mass",
            verdict=Verdict.HOLD if over else Verdict.GO,
            measured=worn,
            limit=limit,
            unit="g",
            why=f"it weighs about {weighs} g when worn; {allowed} g are allowed",
            remedy="less infill, thinner shells, or a new limit from the person who set it" if over else "",
            source="job file; metal and foam densities from memory",
            question="Who set the mass limit, and may it be raised?" if over else "",
            evidence=Evidence.USUAL if any((end > limit) is not over for end in ends) else Evidence.MEASURED,
        ),
    )

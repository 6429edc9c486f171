"""An audit as plain JSON types."""

from __future__ import annotations

import math

from planner.finding import worst
from planner.gcode import Audit, Expected, Measured
from planner.output.json.plan_json import Json, finding_json


def audit_json(measured: Measured, expected: Expected, found: Audit) -> Json:
    """Return the result of ``audit``."""
    return {
        "schema": "fitwright/audit/1",
        "plate": expected.plate,
        "verdict": worst(found.findings).value,
        "measured": {
            "duration_s": measured.duration_s,
            "filament_mm": measured.filament_mm,
            "deposited_mm3": measured.deposited_mm3,
            "mass_g": measured.deposited_mm3 / 1000.0 * expected.material.density_g_cm3.value,
            "layers": measured.layers_n,
            "size_mm": [float(value) for value in measured.size_mm],
            "peak_flow_mm3_s": measured.peak_flow_mm3_s,
            "nozzle_c": _main(measured.nozzle_c),
            "bed_c": _main(measured.bed_c),
            "moves": measured.moves_n,
            "words_unknown": measured.unknown_n,
        },
        "matched": [
            {
                "part": match.part,
                "across_percent": 100.0 * match.across_share,
                "upward_percent": 100.0 * match.upward_share,
                "mirrored": match.mirrored,
                "alike": match.alike_share,
            }
            for match in found.matching.matches
        ],
        "missing": [{"part": name, "copies": n} for name, n in found.matching.missing],
        "extra": len(found.matching.extra),
        "findings": [finding_json(finding) for finding in found.findings],
    }


def _main(laid: dict[float, float]) -> float | None:
    """Return the temperature that most filament was laid at, or null where none had been set."""
    best = max(laid, key=lambda c: laid[c])
    return best if math.isfinite(best) else None

"""An audit as JSON: percent and grams by hand, and nothing that JSON cannot hold."""

from __future__ import annotations

import json
import math
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from planner.gcode import Audit
from planner.gcode.matching.match import Match, Matching
from planner.gcode.program_finding import compared_finding
from planner.output.json.audit_json import audit_json

ISLAND: Any = None


def _json(nozzle_c: dict[float, float]) -> Any:
    """Return the JSON of a program of 10 cm3 with one copy, one missing part, one stray island, and a no-go."""
    measured: Any = SimpleNamespace(
        duration_s=60.0,
        filament_mm=100.0,
        deposited_mm3=10_000.0,
        layers_n=3,
        size_mm=np.array([1.0, 2.0, 3.0]),
        peak_flow_mm3_s=5.0,
        nozzle_c=nozzle_c,
        bed_c={70.0: 1.0},
        moves_n=4,
        unknown_n=0,
    )
    expected: Any = SimpleNamespace(plate=2, material=SimpleNamespace(density_g_cm3=SimpleNamespace(value=1.27)))
    match = Match(island=ISLAND, part="jaw", across_share=1.1, upward_share=0.9, mirrored=True, alike_share=0.8)
    finding = compared_finding("program.reach", wrong=True, measured=1.0, limit=0.0, unit="mm", why="over")
    found: Any = SimpleNamespace(
        matching=Matching(matches=(match,), missing=(("pad", 2),), extra=(ISLAND,)), findings=(finding,)
    )
    audit: Audit = found
    return json.loads(json.dumps(audit_json(measured, expected, audit), allow_nan=False))


def test_shares_are_told_in_percent_and_volume_in_grams() -> None:
    """10 cm3 at 1.27 g/cm3 are 12.7 g; 1.1 across is 110 %; what is missing has its copies, the worst verdict stands."""
    told = _json({240.0: 1.0})

    assert told["measured"]["mass_g"] == pytest.approx(12.7)
    assert told["matched"][0] == {
        "part": "jaw",
        "across_percent": pytest.approx(110.0),
        "upward_percent": pytest.approx(90.0),
        "mirrored": True,
        "alike": 0.8,
    }
    assert (told["missing"], told["extra"]) == ([{"part": "pad", "copies": 2}], 1)
    assert (told["verdict"], len(told["findings"]), told["plate"]) == ("no-go", 1, 2)


@pytest.mark.parametrize(
    ("laid", "main"), [({240.0: 1.0, 250.0: 9.0}, 250.0), ({-math.inf: 9.0, 240.0: 1.0}, None), ({240.0: 5.0}, 240.0)]
)
def test_the_temperature_is_the_one_that_most_was_laid_at(laid: dict[float, float], main: float | None) -> None:
    """The larger volume counts; where most was laid before any was set, null."""
    assert _json(laid)["measured"]["nozzle_c"] == main

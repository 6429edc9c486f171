"""A mesh's measures as JSON: what closed forms give for a bored plate."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Verdict
from planner.output import inspect_json, settings_json
from planner.survey import survey
from tests.shapes import bored_plate


def test_a_bored_plate_by_hand() -> None:
    """60 x 40 x 8 mm less a bore of 5 mm: volume, one bore with its diameter, six faces to lie on."""
    found: Any = inspect_json([(Path("a.stl"), survey(bored_plate(60, 40, 8, [(20, 20, 5.0, 96)])))], ["a doubt"])
    mesh = json.loads(json.dumps(found, allow_nan=False))["meshes"][0]

    assert mesh["volume_mm3"] == pytest.approx(60 * 40 * 8 - math.pi * 2.5**2 * 8, rel=1e-3)
    assert [bore["diameter_mm"] for bore in mesh["bores"]] == [pytest.approx(5.0, abs=0.02)]
    assert mesh["bores"][0]["through"] is True
    assert min(pose["least_square_bed_mm"] for pose in mesh["poses"]) > 0
    assert found["doubts"] == ["a doubt"]


def test_settings_without_findings_go() -> None:
    """Nothing found and nothing to change."""
    found = settings_json((), (), Verdict.GO, printers=("bench-220",), aside={})

    assert (found["verdict"], found["findings"], found["changes"]) == ("go", [], [])

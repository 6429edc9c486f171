"""The beam pass of many parts ahead: what is kept is not asked for again, and nothing is judged twice."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from planner.strength.beam import beams_ahead
from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.beams_ahead import Asked, weakest_ahead
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import bored_plate
from tests.strength.beam.test_beam_pass import SOLID


def test_only_what_is_not_kept_is_shared_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a part that was judged, the same part under another load twice, only that load is asked for, once."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    shared: list[Sequence[Asked]] = []

    monkeypatch.setattr(beams_ahead, "ahead", lambda _, items: shared.append(items))
    bar, held = bored_plate(20, 6, 6, []), [Support(at_mm=(1.0, 3.0, 3.0))]
    cases = [(known_case([PartLoad(at_mm=(18.0, 3.0, 3.0), force_n=(0.0, n, 0.0))], held, "pushed"),) for n in (3, 4)]
    weakest.cache_clear()
    weakest(bar, cases[0], SOLID)

    weakest_ahead([(bar, case, SOLID, ()) for case in (*cases, cases[1])])

    assert shared == [[(bar, cases[1], SOLID, ())]]

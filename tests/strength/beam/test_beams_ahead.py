"""The beam pass of many parts ahead: what is kept is not asked for again, and nothing is judged twice."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import pytest

from planner.strength.beam import beam_pass, beams_ahead
from planner.strength.beam.beam_pass import WayAsked, ways_asked, weakest
from planner.strength.beam.beams_ahead import weakest_ahead
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import bored_plate
from tests.strength.beam.test_beam_pass import SOLID


def test_only_what_is_not_kept_is_shared_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of a part that was judged, the same part under another load twice, only that load's ways are asked for, once."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    shared: list[Sequence[WayAsked]] = []

    monkeypatch.setattr(beams_ahead, "ahead", lambda _, items: shared.append(items))
    bar, held = bored_plate(20, 6, 6, []), [Support(at_mm=(1.0, 3.0, 3.0))]
    cases = [(known_case([PartLoad(at_mm=(18.0, 3.0, 3.0), force_n=(0.0, n, 0.0))], held, "pushed"),) for n in (3, 4)]
    weakest.cache_clear()
    weakest(bar, cases[0], SOLID)

    weakest_ahead([(bar, case, SOLID, ()) for case in (*cases, cases[1])])

    ((way,),) = shared
    assert (way.solid, way.way, way.loads) == (bar, cases[1][0].ways[0], (tuple(cases[1][0].balanced),))


def test_a_part_is_the_same_whether_its_ways_were_judged_before_or_not(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two loads on a bar held at both ends: what several processes kept, way by way, is what one makes of it."""
    bar, places = bored_plate(20, 6, 6, []), ((6.0, 3.0, 3.0), (14.0, 3.0, 3.0))
    held = [Support(at_mm=(x, 3.0, 3.0)) for x in (1.0, 19.0)]
    cases = tuple(known_case([PartLoad(at_mm=at, force_n=(0.0, 3.0, 1.0))], held, "pushed") for at in places)
    downs = ((0.0, -1.0, 0.0), (1.0, 0.0, 0.0))
    found = []
    for name, before in (("alone", False), ("shared", True)):
        monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path / name))
        if before:
            assert len([one.worst for one in ways_asked(bar, cases, SOLID, downs)]) == 4
            monkeypatch.setattr(beam_pass.WayAsked, "_worst", lambda _: pytest.fail("judged twice"))
        weakest.cache_clear()
        found.append(weakest(bar, cases, SOLID, downs))

    assert found[0] == found[1]
    assert found[0] is not None
    assert found[0].case_shares == (1.0, 1.0)

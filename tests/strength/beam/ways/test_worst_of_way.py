"""What the cuts of one way come to: the worst of them, and the same one again when it is asked for alone."""

from __future__ import annotations

from planner.strength.beam.beam_pass import ways_asked
from planner.strength.beam.ways.worst_of_way import along, worst_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from tests.shapes import bored_plate
from tests.strength.beam.test_beam_pass import SOLID


def test_the_worst_cut_of_a_way_is_found_again_by_its_number() -> None:
    """Of a cantilever pushed at its end, the cut at the wall; judged alone it has the same index, to the last bit."""
    held, push = [Support(at_mm=(1.0, 3.0, 3.0))], PartLoad(at_mm=(18.0, 3.0, 3.0), force_n=(0.0, 3.0, 0.0))
    (way,) = ways_asked(bored_plate(20, 6, 6, []), (known_case([push], held, "pushed"),), SOLID, ())
    every = list(along(way.solid, way.cuts, way.way, way.loads, SOLID))
    told = worst_of(every, 1, SOLID, ())
    assert told is not None
    (again,) = along(way.solid, way.cuts, way.way, way.loads, SOLID, only=told[0].number)

    assert told[0].cuts_n == len(every)
    assert told[0].number == max(every, key=lambda one: one.index_ratio).number == again.number
    assert again.index_ratio == told[1].index_ratio == told[0].case_index[0]
    assert again.share < 0.1

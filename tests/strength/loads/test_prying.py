"""A part that is levered off presses on its edge, so that its screw takes more than the load: the lever, by hand."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of
from planner.mechanism import STILL
from planner.strength.loads.bore_mouths import ways_out
from planner.strength.loads.bore_pulls import bore_pulls
from planner.strength.loads.load_cases import known_case, stated_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.strength.loads.part_supports import supports_of
from planner.strength.loads.pressed_edges import Footing, least_edge_mm
from planner.strength.loads.prying import pried
from planner.survey import survey
from tests.conftest import MakeJob
from tests.strength.loads.lifted_bracket import ARM_MM, TEXT, bracket_on_base
from tests.strength.loads.test_pressed_edges import BASE, LID

DOWN = (0.0, 0.0, -1.0)
FOOTING = Footing(solids=bracket_on_base(10.0), claims=[LID, BASE])


def test_a_lip_that_is_pulled_away_multiplies_the_pull_on_its_screws(make_job: MakeJob) -> None:
    """F (a + b) / b (the lever, statics): 40 N, 27.5 mm beyond two screws and 10 mm from there to the edge: 75 N each."""
    solids = bracket_on_base(10.0)
    job = make_job(TEXT.format(load_n=40.0), **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    claims = claims_of(job, surveys).claims
    held = supports_of(job, "bracket", solids, surveys, claims, dict.fromkeys(solids, STILL))
    case = stated_case(job.part("bracket"), held, 40.0)
    assert case is not None
    footing = Footing(solids=solids, claims=claims)
    found = list(bore_pulls({"bracket": [case]}, claims, ways_out(claims, solids), footing))

    assert 40.0 * (ARM_MM + 10.0) / 10.0 / 2.0 == 75.0
    assert sorted((part, bore) for part, bore, _ in found) == [
        (part, bore) for part in ("base", "bracket") for bore in ("b1", "b2")
    ]
    for _, _, pull in found:
        assert pull.pull_n == pytest.approx(75.0, rel=1e-3)
        assert not pull.asks
        assert pull.said.endswith("(55 N of it because bracket presses on its edge 10 mm from there)")


def test_a_part_that_bends_between_two_screws_may_press_on_its_edge() -> None:
    """EN 1993-1-8:2005, 6.2.4, mode 1 (from memory): F/2 (1 + m / (2 n)), here m = 15 and n = 10: 1.75 times; asked."""
    held = [Support(at_mm=(0.0, y, 2.5), over=over, axis=DOWN) for y, over in ((15.0, "b1"), (-15.0, "b9"))]
    case = known_case([PartLoad(at_mm=(0.0, 0.0, 5.0), force_n=(0.0, 0.0, 40.0))], held, "a load")
    found = pried(case, LID, DOWN, FOOTING, clamps=True)

    assert found is not None
    assert found.known_n == pytest.approx(20.0)
    assert found.added_n == 0.0
    assert found.feared_n == pytest.approx(20.0 * (1.0 + 15.0 / (2.0 * 10.0)))
    assert found.asks.startswith("Does bracket stay flat")


def test_what_turns_on_its_screw_or_is_pressed_on_takes_no_more() -> None:
    """A pivot bends its screw and presses no edge; pressed on its base, a part leaves the screw alone."""
    held = [Support(at_mm=(0.0, 15.0, 2.5), over="b1", axis=DOWN)]
    lifted = known_case([PartLoad(at_mm=(27.5, 15.0, 5.0), force_n=(0.0, 0.0, 40.0))], held, "a load")
    pressed = known_case([PartLoad(at_mm=(0.0, 15.0, 9.0), force_n=(0.0, 0.0, -40.0))], held, "a load")
    free, on = (pried(case, LID, DOWN, FOOTING, clamps=clamps) for case, clamps in ((lifted, False), (pressed, True)))

    assert free is not None
    assert on is not None
    assert free.known_n == pytest.approx(40.0)
    assert free.added_n == 0.0
    assert on.known_n == on.feared_n == pytest.approx(-40.0)


def test_an_edge_that_is_not_known_is_asked_at_its_least() -> None:
    """Without a mesh, 40 N at 27.5 mm turn about the wall beside the bore: no nearer than its radius and that, by hand."""
    held = [Support(at_mm=(0.0, 15.0, 2.5), over="b1", axis=DOWN)]
    case = known_case([PartLoad(at_mm=(27.5, 15.0, 5.0), force_n=(0.0, 0.0, 40.0))], held, "a load")
    found = pried(case, LID, DOWN, Footing(solids={}, claims=[LID]), clamps=True)

    assert found is not None
    assert found.known_n == pytest.approx(40.0)
    assert found.feared_n == pytest.approx(40.0 * (1.0 + ARM_MM / least_edge_mm(LID.bore)))
    assert found.asks == "How far beyond screw does bracket reach?"

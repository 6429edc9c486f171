"""Along the bore of a screw a load pulls out of the part or presses in; where nothing tells which, that is asked."""

from __future__ import annotations

import pytest

from planner.assembly import Claim
from planner.job import Hardware
from planner.strength.loads.bore_pulls import bore_pulls
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from tests.mechanism.cord.path.known_parts import bore

PILOT = bore(1, 0.0, 0.0, 15.0, 3.3, 10.0)
SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=4.0, fit="sliding", pilot_mm=3.3, joins=("lid", "box"))
IN_BOX = Claim(part="box", bore=PILOT, hardware=SCREW, fit="pilot")
IN_LID = Claim(part="lid", bore=PILOT, hardware=SCREW, fit="sliding")
UP = {("box", "b1"): (0.0, 0.0, 1.0)}


def _case(*force_n: float) -> LoadCase:
    """Return a load below the bore, held by the screw in it."""
    x, y, z = force_n
    push = PartLoad(at_mm=(0.0, 0.0, 0.0), force_n=(x, y, z))
    return known_case([push], [Support(at_mm=PILOT.centre_mm, over="b1", axis=PILOT.axis)], "a load")


def test_what_pulls_the_part_off_its_screw_pulls_the_screw_out() -> None:
    """Action and reaction (Newton): 40 N on the part, away from the mouth, are 40 N of the screw toward it."""
    ((_, _, off),) = bore_pulls({"box": [_case(5.0, 0.0, -40.0)]}, [IN_BOX], UP)
    ((_, _, on),) = bore_pulls({"box": [_case(5.0, 0.0, 40.0)]}, [IN_BOX], UP)

    assert off.pull_n == pytest.approx(40.0)
    assert off.asks == ""
    assert on.pull_n == pytest.approx(-40.0)


def test_a_load_across_has_nothing_along_the_bore() -> None:
    """Statics: a force square to a line has no part along it; an axis is told no more exactly than its mesh is."""
    for along_n in (0.0, -0.001):
        assert list(bore_pulls({"box": [_case(40.0, 0.0, along_n)]}, [IN_BOX], UP)) == []


def test_where_nothing_tells_which_way_is_out_that_is_asked() -> None:
    """Either may be, at a through bore, and where the load comes over the lid's head."""
    ((_, _, here),) = bore_pulls({"box": [_case(0.0, 0.0, 40.0)]}, [IN_BOX], {})
    through = bore_pulls({"lid": [_case(0.0, 0.0, 40.0)]}, [IN_BOX, IN_LID], UP)
    ((part, _, there),) = [one for one in through if one[0] == "box"]

    assert here.pull_n == pytest.approx(40.0)
    assert here.asks == "Does the load pull screw out of b1 of box, or press it in?"
    assert (part, there.said) == ("box", "through lid under a load")
    assert there.asks


def test_where_the_lid_is_drawn_in_place_the_way_through_it_is_known() -> None:
    """Lifted off the box, 40 N come to the thread in it, as they do to the head; pressed on it, nothing does."""
    ways = {**UP, ("lid", "b1"): (0.0, 0.0, -1.0)}
    lifted, pressed = (
        {part: pull for part, _, pull in bore_pulls({"lid": [_case(0.0, 0.0, along_n)]}, [IN_BOX, IN_LID], ways)}
        for along_n in (40.0, -40.0)
    )

    assert {part: pull.pull_n for part, pull in lifted.items()} == pytest.approx({"box": 40.0, "lid": 40.0})
    assert not any(pull.asks for pull in lifted.values())
    assert {part: pull.pull_n for part, pull in pressed.items()} == {"lid": pytest.approx(-40.0)}

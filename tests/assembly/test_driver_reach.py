"""A driver's straight way: against where plates are known to stand, and against arithmetic on a disc and a rectangle."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import ways_of
from planner.assembly.claim import Claim
from planner.assembly.drawn.drawn_in_place import drawn_in_place
from planner.job import Hardware, Job
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, solid_of

JOB = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    + "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\n' for name in ("base", "cover"))
    + '[[joint]]\nbetween = ["base", "cover"]\nhow = "snapped"\n'
)
SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=3.0, joins=("base",), fit="sliding")
BASE = bored_plate(40, 40, 6, [(20, 20, 3.4, 48)])


def _cover(x: float, y: float, size: float) -> Solid:
    """Return a plate 4 mm thick on the base's top, its lower left corner at a place."""
    return solid_of(Manifold.cube((size, size, 4.0)).translate((x, y, 6.0)))


@pytest.fixture(name="job")
def _job(make_job: MakeJob) -> Job:
    """Return a job of a base and a cover, with one screw through the base."""
    return replace(make_job(JOB, base=BASE, cover=_cover(0, 0, 40)), hardware=(SCREW,))


def _claims() -> list[Claim]:
    """Return the claim on the base's bore, as surveyed."""
    return [Claim(part="base", bore=bore, hardware=SCREW, fit="sliding") for bore in survey(BASE).bores]


def test_a_cover_over_the_axis_is_in_the_way_and_one_beside_it_not(job: Job) -> None:
    """A plate over the bore, and the same plate 25 mm to the side."""
    over = ways_of(job, {"base": BASE, "cover": _cover(10, 10, 20)}, _claims())["screw"]
    beside = ways_of(job, {"base": BASE, "cover": _cover(25, 25, 14)}, _claims())["screw"]

    assert over.blocked_by(frozenset({"base", "cover"})) == {"cover"}
    assert over.blocked_by(frozenset({"base"})) == frozenset()
    assert beside.blocked_by(frozenset({"base", "cover"})) == frozenset()


@pytest.mark.parametrize("seed", range(4))
def test_the_way_is_as_wide_as_the_head(job: Job, seed: int) -> None:
    """Blocked where the rectangle of the cover comes within 2.75 mm of the axis (head of an M3: 5.5 mm, ISO 4762)."""
    rng, claims = np.random.default_rng(seed), _claims()
    for x, y in rng.uniform(5.0, 30.0, (15, 2)):
        gap = math.hypot(max(x - 20.0, 20.0 - (x + 9.0), 0.0), max(y - 20.0, 20.0 - (y + 9.0), 0.0))
        way = ways_of(job, {"base": BASE, "cover": _cover(x, y, 9.0)}, claims)["screw"]

        assert not way.unknown
        if abs(gap - 2.75) > 0.3:  # a way of 32 sides, and a tenth of a cubic millimetre of touch, end in between
            assert bool(way.blocked_by(frozenset({"cover"}))) is (gap < 2.75), (x, y)


def test_a_pilot_needs_one_end_only(job: Job) -> None:
    """What stands over one end bars a screw that goes through, and not one that is driven from the other."""
    solids = {"base": BASE, "cover": _cover(10, 10, 20)}
    pilot = replace(SCREW, fit="pilot")
    claims = [replace(claim, hardware=pilot) for claim in _claims()]
    way = ways_of(replace(job, hardware=(pilot,)), solids, claims)["screw"]

    assert not way.blocked_by(frozenset({"base", "cover"}))


def test_parts_drawn_round_their_own_origins_are_not_in_place(job: Job) -> None:
    """Two plates in one place, two far apart, two of which one has two copies, or a size of its own: nothing is claimed."""
    there = {"base": BASE, "cover": _cover(10, 10, 20)}
    far = {"base": BASE, "cover": solid_of(Manifold.cube((20.0, 20.0, 4.0)).translate((0, 0, 30)))}
    same = {"base": BASE, "cover": BASE}
    two = replace(job, parts=(job.parts[0], replace(job.parts[1], count=2)))
    own = replace(job, parts=(job.parts[0], replace(job.parts[1], scale_percent=100.0)))

    assert drawn_in_place(job, there, ()) == (frozenset({"base", "cover"}),)
    for other, solids in ((job, far), (job, same), (two, there), (own, there)):
        assert drawn_in_place(other, solids, ()) == ()
        assert "not known" in ways_of(other, solids, _claims())["screw"].unknown

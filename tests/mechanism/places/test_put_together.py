"""Copies put together by axes, mid-planes and faces: each case by hand, and what cannot be told is not guessed."""

from __future__ import annotations

import math

import pytest

from planner.assembly import claims_of
from planner.mechanism import Placed, mechanism_of, placed
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of


def bored(body: Manifold, *at: tuple[float, float], diameter: float = 5.2) -> Manifold:
    """Return a body with upright bores."""
    for x, y in at:
        body -= cylinder(diameter, 200.0, 48).translate((x, y, -100.0))
    return body


def fork(*at: tuple[float, float]) -> Manifold:
    """Return two plates with a gap from z = 0 to 6 between them, held together at the back, bored."""
    plates = Manifold.cube((30, 70, 5)).translate((-20, -30, -5)) + Manifold.cube((30, 70, 5)).translate((-20, -30, 6))
    return bored(plates + Manifold.cube((5, 70, 16)).translate((-20, -30, -5)), *at)


def link(long: float, *, thick: float = 5.0, nose: bool = False) -> Manifold:
    """Return a bar that begins on the origin, round there."""
    body = Manifold.cylinder(thick, 6.0, -1.0, 48) + Manifold.cube((long, 10, thick)).translate((0, -5, 0))
    if nose:
        body += Manifold.cube((6, 6, 2)).translate((long - 6, -3, thick))
    return body


def job_text(parts: dict[str, int], *pins: tuple[str, ...]) -> str:
    """Return a job of parts with their counts, and pins that join them, each 1 mm thinner than the one before."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    for name, count in parts.items():
        text += f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\ncount = {count}\n'
    for n, joins in enumerate(pins):
        names = ", ".join(f'"{name}"' for name in joins)
        text += f'[[hardware]]\nname = "pin{n}"\nkind = "dowel-pin"\ndiameter_mm = {5 - n}\nbore_mm = {5.2 - n}\n'
        text += f'fit = "turning"\njoins = [{names}]\n'
    return text


def _placed(make_job: MakeJob, text: str, **solids: Solid) -> Placed:
    """Return where copies stand."""
    job = make_job(text, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return placed(job, solids, surveys, claims_of(job, surveys).claims)


def test_two_copies_on_two_bores_come_to_different_ones(make_job: MakeJob) -> None:
    """Two symmetric jaws in one fork: each on its own axis, mid-plane on mid-plane (z = 3), and their angle stays free."""
    deck = solid_of(fork((0, 14), (0, -14)))
    jaw = solid_of(bored(link(40.0).translate((0, 0, 50)), (0, 0)))
    found = _placed(make_job, job_text({"deck": 1, "jaw": 2}, ("deck", "jaw")), deck=deck, jaw=jaw)

    assert found.how == {"deck": "drawn", "jaw": "solved", "jaw#2": "solved"}
    places = [found.copies[copy].point((0.0, 0.0, 52.5)) for copy in ("jaw", "jaw#2")]
    assert [round(y) for _, y, _ in places] in ([14, -14], [-14, 14])
    assert all((x, abs(y), z) == pytest.approx((0.0, 14.0, 3.0), abs=1e-3) for x, y, z in places)
    assert set(found.free) == {"jaw", "jaw#2"}


def test_a_jaw_that_may_lie_either_way_up_has_no_place(make_job: MakeJob) -> None:
    """With a nose on one side, both ways up fit into the fork: not placed, and the reason says so."""
    deck = solid_of(fork((0, 0)))
    jaw = solid_of(bored(link(40.0, thick=3.0, nose=True).translate((0, 0, 50)), (0, 0)))
    found = _placed(make_job, job_text({"deck": 1, "jaw": 1}, ("deck", "jaw")), deck=deck, jaw=jaw)

    assert found.unplaced == ("jaw",)
    assert "either way up" in found.why["jaw"]


def test_more_axes_than_copies_leave_the_place_open(make_job: MakeJob) -> None:
    """One jaw for two axes: nobody can tell which."""
    jaw = solid_of(bored(link(40.0), (0, 0)))
    found = _placed(
        make_job, job_text({"deck": 1, "jaw": 1}, ("deck", "jaw")), deck=solid_of(fork((0, 14), (0, -14))), jaw=jaw
    )

    assert "2 places, for 1 of its kind" in found.why["jaw"]


def test_what_nothing_joins_is_named(make_job: MakeJob) -> None:
    """A part without hardware has no place, and says why."""
    jaw = solid_of(bored(link(40.0), (0, 0)))
    cap = solid_of(Manifold.cube((5, 5, 5)))
    text = job_text({"deck": 1, "jaw": 1, "cap": 1}, ("deck", "jaw"))
    found = _placed(make_job, text, deck=solid_of(fork((0, 0))), jaw=jaw, cap=cap)

    assert found.unplaced == ("cap",)
    assert found.why["cap"] == "no hardware joins cap to a part whose place is known"


def test_a_four_bar_is_closed(make_job: MakeJob) -> None:
    """Crank and rocker in a fork are turned until a coupler's forks reach over both their ends: 24 mm from pin to pin.

    The loop then moves as one, its angles counted from a place that nobody knows.
    """
    base = solid_of(bored(fork((0, -14)), (0, 16), diameter=4.2))
    crank = solid_of(bored(bored(link(38.0), (0, 0)), (32, 0), diameter=3.2))
    rocker = solid_of(bored(bored(link(46.0), (0, 0), diameter=4.2), (40, 0), diameter=2.2))
    sides = Manifold.cube((36, 12, 3)).translate((-6, -6, -3.5)) + Manifold.cube((36, 12, 3)).translate((-6, -6, 5.5))
    sides += Manifold.cube((4, 4, 12)).translate((10, -2, -3.5))
    coupler = solid_of(bored(bored(sides, (0, 0), diameter=3.2), (24, 0), diameter=2.2))
    names = ("base", "crank", "rocker", "coupler")
    pins = (("base", "crank"), ("base", "rocker"), ("crank", "coupler"), ("rocker", "coupler"))
    solids = {"base": base, "crank": crank, "rocker": rocker, "coupler": coupler}
    job = make_job(job_text(dict.fromkeys(names, 1), *pins), **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    mechanism = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    assert mechanism is not None
    found = mechanism.placed

    assert found.unplaced == ()
    end, other = found.copies["crank"].point((32.0, 0.0, 2.5)), found.copies["rocker"].point((40.0, 0.0, 2.5))
    assert math.dist(end, other) == pytest.approx(24.0, abs=1e-3)
    assert found.copies["coupler"].point((0.0, 0.0, 2.5)) == pytest.approx(end, abs=1e-3)
    assert found.free["crank"] == "the closed chain that it is in may stand at any angle"
    assert [len(loop) for loop in mechanism.loops] == [4]
    assert not any(joint.zero_known for joint in mechanism.joints)
    turned = mechanism.frames_at({"base to crank": 12.0})
    assert math.dist(turned["crank"].point((32.0, 0.0, 2.5)), turned["coupler"].point((0.0, 0.0, 2.5))) < 1e-3
    assert math.dist(turned["rocker"].point((40.0, 0.0, 2.5)), turned["coupler"].point((24.0, 0.0, 2.5))) < 1e-3

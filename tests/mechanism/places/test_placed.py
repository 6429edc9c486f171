"""Where every copy stands and how that is known: stated, drawn, or put together; by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from planner.assembly import claims_of
from planner.mechanism.places.placed import Placed, frame_of, placed
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.mechanism.places.test_put_together import bored, fork, job_text, link
from tests.shapes import Manifold, cuboid, solid_of


def _placed(make_job: MakeJob, text: str, **solids: Solid) -> Placed:
    """Return where copies stand."""
    job = make_job(text, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return placed(job, solids, surveys, claims_of(job, surveys).claims)


def test_a_place_is_turned_about_the_meshs_origin_then_moved() -> None:
    """A quarter turn about z takes (1, 0, 0) to (0, 1, 0), which a move by (10, 20, 30) takes to (10, 21, 30)."""
    place: Any = SimpleNamespace(turn=(0.0, 0.0, 1.0, 90.0), at_mm=(10.0, 20.0, 30.0))

    assert frame_of(place).point((1.0, 0.0, 0.0)) == pytest.approx((10.0, 21.0, 30.0))


def test_what_is_stated_of_every_copy_is_taken_as_it_is(make_job: MakeJob) -> None:
    """Two blocks stated inside each other: nobody moves them, and no mesh is measured for it."""
    text = job_text({"block": 2})
    text += "".join(f'[[place]]\npart = "{copy}"\nat_mm = [{x}, 0, 0]\n' for copy, x in (("block", 1), ("block#2", 2)))
    job = make_job(text, block=cuboid(10, 10, 10))
    found = placed(job, {}, {}, ())

    assert found.how == {"block": "stated", "block#2": "stated"}
    assert [found.copies[copy].point((0.0, 0.0, 0.0))[0] for copy in ("block", "block#2")] == [1.0, 2.0]


def test_each_copy_tells_how_its_place_is_known(make_job: MakeJob) -> None:
    """A fork and its lid drawn on one pin, a jaw on the other pin put into the gap, a cap that nothing joins: all three ways.

    By hand: the jaw comes from (0, 0, 50) to the axis at y = 14, mid-plane on mid-plane at z = 3.
    """
    lid = bored(Manifold.cube((30, 12, 4)).translate((-20, -20, 11)), (0, -14), diameter=4.2)
    deck = bored(fork((0, 14)), (0, -14), diameter=4.2)
    jaw = bored(link(40.0).translate((0, 0, 50)), (0, 0))
    found = _placed(
        make_job,
        job_text({"deck": 1, "lid": 1, "jaw": 1, "cap": 1}, ("deck", "jaw"), ("deck", "lid")),
        deck=solid_of(deck),
        lid=solid_of(lid),
        jaw=solid_of(jaw),
        cap=cuboid(5, 5, 5),
    )

    assert found.how == {"deck": "drawn", "lid": "drawn", "jaw": "solved"}
    assert found.copies["deck"].still
    assert found.copies["lid"].still
    assert found.copies["jaw"].point((0.0, 0.0, 52.5)) == pytest.approx((0.0, 14.0, 3.0), abs=1e-3)
    assert found.unplaced == ("cap",)
    assert set(found.why) == {"cap"}


def test_with_nothing_drawn_or_stated_the_part_that_most_hardware_goes_through_stands(make_job: MakeJob) -> None:
    """The deck is named by two pins, each jaw by one: the deck is the device's frame, wherever it stands in the job."""
    jaw = solid_of(bored(link(40.0).translate((0, 0, 50)), (0, 0)))
    other = solid_of(bored(link(40.0).translate((0, 0, 90)), (0, 0), diameter=4.2))
    deck = solid_of(bored(fork((0, 14)), (0, -14), diameter=4.2))
    text = job_text({"jaw": 1, "other": 1, "deck": 1}, ("deck", "jaw"), ("deck", "other"))
    found = _placed(make_job, text, jaw=jaw, other=other, deck=deck)

    assert found.how == {"jaw": "solved", "other": "solved", "deck": "drawn"}
    assert found.copies["deck"].still

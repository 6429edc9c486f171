"""Copies drawn in place: plates on one pin, of which some are stated to stand elsewhere; by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import Claim, claims_of
from planner.job import Job
from planner.mechanism.places.drawn_copies import drawn_beside, drawn_copies
from planner.mechanism.places.frame import STILL, Frame
from planner.mesh import Solid
from planner.survey import Survey, survey
from tests.conftest import MakeJob
from tests.mechanism.places.test_put_together import bored, job_text
from tests.shapes import Manifold, solid_of

Parsed = tuple[Job, dict[str, Solid], dict[str, Survey], tuple[Claim, ...]]
AWAY = Frame(turn=np.eye(3), shift_mm=np.array([0.0, 0.0, 40.0]))


def _plate(z_mm: float, x_mm: float = 0.0, diameter: float = 5.2) -> Solid:
    """Return a plate 4 mm thick at a height, with a bore on the upright axis through (x, 0)."""
    return solid_of(bored(Manifold.cube((20, 12, 4)).translate((x_mm - 6, -6, z_mm)), (x_mm, 0), diameter=diameter))


@pytest.fixture(name="stacked")
def _stacked(make_job: MakeJob) -> Parsed:
    """Three plates on one pin, 0.2 mm apart; and two of which a second pin, 60 mm beside, goes through."""
    solids = {"low": _plate(0), "mid": _plate(4.2), "top": _plate(8.4)}
    solids |= {"left": _plate(0, 60, 4.2), "right": _plate(4.2, 60, 4.2)}
    text = job_text(dict.fromkeys(solids, 1), ("low", "mid", "top"), ("left", "right"))
    job = make_job(text, **solids)
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return job, solids, surveys, claims_of(job, surveys).claims


def test_the_largest_group_is_the_frame_and_others_stand_to_each_other(stacked: Parsed) -> None:
    """Three on one pin before two on another."""
    assert drawn_copies(*stacked, {}) == (frozenset({"low", "mid", "top"}), (frozenset({"left", "right"}),))


def test_what_is_stated_elsewhere_was_not_drawn_in_place(stacked: Parsed) -> None:
    """A place that moves the top plate's mesh leaves two groups of two, the first by name the frame; one that moves nothing leaves it in."""
    assert drawn_copies(*stacked, {"top": AWAY}) == (frozenset({"left", "right"}), (frozenset({"low", "mid"}),))
    assert drawn_copies(*stacked, {"top": STILL})[0] == {"low", "mid", "top"}


def test_of_several_copies_the_first_is_drawn_in_place(stacked: Parsed) -> None:
    """Of two middle plates one is between the others as drawn; where the second stands, nobody has drawn."""
    job, solids, surveys, claims = stacked
    parts = tuple(replace(part, count=2) if part.name == "mid" else part for part in job.parts)

    assert drawn_copies(replace(job, parts=parts), solids, surveys, claims, {})[0] == {"low", "mid", "top"}


def test_a_group_with_a_stated_part_is_the_frame_though_it_is_smaller(stacked: Parsed) -> None:
    """Who states that the left plate stands as drawn says so of what is drawn with it; the larger group is loose."""
    assert drawn_copies(*stacked, {"left": STILL}) == (
        frozenset({"left", "right"}),
        (frozenset({"low", "mid", "top"}),),
    )


def test_beside_a_placed_copy_on_one_pin_a_part_stands_as_drawn(stacked: Parsed) -> None:
    """From the low plate the middle one is found, from that the top one; on the other pin nothing is."""
    job, solids, _, claims = stacked

    assert drawn_beside(job, solids, claims, {"low": STILL}) == {"mid": STILL, "top": STILL}
    assert drawn_beside(job, solids, claims, {"low": AWAY, "mid": AWAY, "top": AWAY}) == {}

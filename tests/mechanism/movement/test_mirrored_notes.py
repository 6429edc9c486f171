"""A device that is printed mirrored is told so, with the parts that stay as drawn and are not symmetric."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.mechanism.movement.mirrored_notes import mirrored_notes, symmetric
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

EL = Manifold.cube((30, 10, 5)) + Manifold.cube((10, 25, 5))
ODD = EL + Manifold.cube((6, 6, 20)) + Manifold.cube((4, 4, 12)).translate((26, 0, 0))
"""An L is its own mirror image through its plate; with posts on one side of it, it is none."""


@pytest.mark.parametrize(
    ("body", "alike"),
    [
        (Manifold.cube((30, 20, 5)), True),
        (cylinder(20, 30, 64), True),
        (EL, True),
        (EL.rotate((20, 30, 40)), True),
        (ODD, False),
    ],
    ids=["block", "round", "L", "L turned", "odd"],
)
def test_a_body_is_its_own_mirror_image_or_not(body: Manifold, alike: bool) -> None:
    """By planes through the centre of mass, however the mesh lies."""
    assert symmetric(solid_of(body)) is alike


def test_angles_of_a_mirrored_device_are_told_as_drawn(make_job: MakeJob) -> None:
    """Printed for the side that it was drawn for, there is nothing to say; for the other, odd parts are named."""
    solids = {"arm": solid_of(EL), "base": solid_of(ODD)}
    text = '[job]\nname = "x"\nmaterial = "petg"\n'
    text += '[[part]]\nname = "arm"\nmesh = "arm.stl"\nhanded = true\n[[part]]\nname = "base"\nmesh = "base.stl"\n'
    drawn = make_job(text, **solids)

    for side, told in (("right", 0), ("left", 2)):
        job = replace(drawn, size=replace(drawn.size, side=side, drawn_for="right"))  # type: ignore[arg-type]
        notes = mirrored_notes(job, solids)
        assert len(notes) == told
    assert "printed mirrored for the left" in notes[0]
    assert "not marked as handed: base." in notes[1]

"""The survey: what it did not recognise is counted by topology."""

from __future__ import annotations

from planner.survey import survey
from tests.shapes import Manifold, cylinder, solid_of


def test_topology_counts_what_the_survey_missed() -> None:
    """A square opening is no bore and no slot: the genus of the mesh says that one more goes through (Euler, Poincare)."""
    body = Manifold.cube((40, 30, 5)) - cylinder(6, 20, 48).translate((10, 15, -5))
    whole, holed = survey(solid_of(body)), survey(solid_of(body - Manifold.cube((8, 8, 20)).translate((24, 11, -5))))
    hollow = survey(solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((8, 8, 8)).translate((6, 6, 6))))

    assert (whole.handles_n, whole.unrecognised_n) == (1, 0)
    assert (holed.handles_n, holed.unrecognised_n) == (2, 1)
    assert (hollow.handles_n, hollow.unrecognised_n) == (0, 0)

"""Elastics as a spring balance reads them."""

from __future__ import annotations

import pytest

from planner.job import Cord
from planner.mechanism.force.elastic import Elastic, elastic_of


def test_force_falls_by_the_rate_and_never_pushes() -> None:
    """6 N at full stretch and 0.5 N/mm: 10 mm shorter 1 N, 20 mm shorter nothing."""
    band = Elastic(full_n=6.0, rate_n_per_mm=0.5)

    assert band.force_n(50.0, 20.0, 50.0) == (6.0, 6.0)
    assert band.force_n(40.0, 20.0, 50.0) == (1.0, 1.0)
    assert band.force_n(30.0, 20.0, 50.0) == (0.0, 0.0)


def test_what_is_not_measured_stays_a_range() -> None:
    """Without its rate an elastic pulls anything up to its full force; without that force it is just taut at its shortest."""
    assert Elastic(full_n=6.0, rate_n_per_mm=None).force_n(40.0, 20.0, 50.0) == (0.0, 6.0)
    assert Elastic(full_n=6.0, rate_n_per_mm=None).force_n(50.0, 20.0, 50.0) == (6.0, 6.0)
    assert Elastic(full_n=None, rate_n_per_mm=0.5).force_n(40.0, 20.0, 50.0) == (10.0, 10.0)


def test_an_elastic_that_nobody_measured_is_asked_for() -> None:
    """One sentence that names the keys."""
    found = elastic_of(Cord(name="band", part="deck", diameter_mm=1.0, kind="elastic"))

    assert found == (
        "the force of band is not known: hang it on a spring balance and state force_n at full stretch and rate_n_per_mm"
    )
    known = elastic_of(Cord(name="band", part="deck", diameter_mm=1.0, kind="elastic", rate_n_per_mm=0.2))
    assert isinstance(known, Elastic)
    assert known.known
    assert known.rate_n_per_mm == pytest.approx(0.2)

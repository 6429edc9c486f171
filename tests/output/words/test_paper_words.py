"""Words that papers share: counts, percents, and what a caliper must read."""

from __future__ import annotations

from dataclasses import replace

import pytest
from manifold3d import Manifold
from shapely import affinity, box

from planner.output.words.paper_words import caliper, mirrored, percent, with_count, worn
from planner.plan import Plan
from tests.shapes import solid_of


def test_a_name_shows_its_count() -> None:
    """Only where there are several."""
    assert (with_count("jaw", 1), with_count("jaw", 2)) == ("jaw", "jaw × 2")


def test_percents_are_told_short() -> None:
    """A whole percent needs no decimals."""
    assert percent(100.0) == "100 %"


def test_the_caliper_reads_the_longest_side(plan: Plan) -> None:
    """For every part of the Heron, the largest of its three printed sides."""
    for part in plan.parts:
        assert caliper(part)[1] == max(part.posed.size_mm)


def test_a_pin_that_lies_askew_is_measured_along_itself(plan: Plan) -> None:
    """60 x 8 mm turned by 30 degrees in its own coordinates still reads 60, not 60 cos 30 + 8 sin 30 = 56.0."""
    posed = solid_of(Manifold.cube((60, 8, 8), True).rotate((0, 0, 30)))
    outline = tuple(affinity.rotate(box(-30, -4, 30, 4), 30).exterior.coords)
    way, value = caliper(replace(plan.parts[0], posed=posed, outline_mm=(outline,)))

    assert posed.size_mm[0] == pytest.approx(55.96, abs=0.01)
    assert way == "long"
    assert value == pytest.approx(60.0)


def test_each_part_is_mirrored_or_not(plan: Plan) -> None:
    """Both lists together name every part once."""
    turned, plain = mirrored(plan)

    assert all((part.part.name in turned) is part.mirrored for part in plan.parts if part.part.name != "deck")
    assert "deck" in plain
    assert worn(plan)[0].endswith("g")

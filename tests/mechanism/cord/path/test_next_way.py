"""Ways of the other cords of a table, on devices whose mirror image is known by hand."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.mechanism.cord.path.next_way import Known, next_ways
from planner.mechanism.cord.path.path_stop import LineStop, PointStop
from planner.mechanism.cord.path.resolve_path import resolve_path
from tests.mechanism.cord.path.known_parts import bore, survey_of
from tests.mechanism.cord_effects.one_jaw import OneJaw, two_jaws
from tests.shapes import Manifold, solid_of


@pytest.fixture(name="pair", scope="module")
def _pair(tmp_path_factory: pytest.TempPathFactory) -> OneJaw:
    return two_jaws(tmp_path_factory.mktemp("two_jaws"))


def known_of(pair: OneJaw) -> Known:
    return Known(
        job=pair.job, solids=pair.solids, surveys=pair.surveys, claims=pair.claims, frames=pair.mechanism.frames
    )


def test_a_point_of_a_part_that_stands_once_is_mirrored(pair: OneJaw) -> None:
    """The eye at (-60, 16) of the plate has its image at (-60, -16): there the second jaw's cord begins."""
    cord = pair.job.cords[0]
    first = resolve_path(pair.job, pair.solids, pair.surveys, pair.claims, cord)
    assert not isinstance(first, str)
    (way,) = next_ways(known_of(pair), cord, first)

    assert not isinstance(way, str)
    eye, hook = way
    assert isinstance(eye, PointStop)
    assert eye.at_mm == pytest.approx((-60.0, -16.0, 7.5))
    assert hook.copy == "jaw#2"


def test_the_channel_that_lies_to_the_second_jaw_as_the_first_does_is_taken(pair: OneJaw) -> None:
    """Of four channels along x at y = 50, 16, -16 and -50, the second cord takes the one at -16."""
    bores = tuple(
        replace(bore(n, -40.0, y, 2.5, 2.0, 20.0), axis=(1.0, 0.0, 0.0))
        for n, y in ((11, 50.0), (12, 16.0), (13, -16.0), (14, -50.0))
    )
    line = LineStop(copy="plate", line_mm=((-50.0, 16.0, 2.5), (-30.0, 16.0, 2.5)), bends_deg=0.0)
    cord = pair.job.cords[0]
    known = replace(known_of(pair), surveys={**pair.surveys, "plate": survey_of("plate", bores)})
    (way,) = next_ways(known, cord, (line, PointStop(copy="jaw", at_mm=(0.0, -14.0, 2.5))))

    assert not isinstance(way, str)
    assert isinstance(way[0], LineStop)
    assert way[0].line_mm[0][1] == pytest.approx(-16.0)


def test_a_way_without_an_image_is_said_and_one_beside_the_first_is_none(pair: OneJaw) -> None:
    """A plate that is no mirror image of itself offers no second eye; with one jaw both cords lie side by side."""
    cord = pair.job.cords[0]
    eye, hook = PointStop(copy="plate", at_mm=(-60.0, 16.0, 7.5)), PointStop(copy="jaw", at_mm=(0.0, -14.0, 2.5))
    wedge = solid_of(Manifold.hull_points([(0, 0, 0), (80, 0, 0), (0, 120, 0), (0, 0, 5)]), "plate")
    known = replace(known_of(pair), solids={**pair.solids, "plate": wedge})
    (why,) = next_ways(known, cord, (eye, hook))

    assert why == (
        "the way of pull#2 is not known: no other copies and features lie as those of the first do; "
        "give every cord a [[cord]] of its own, with its path and count = 1"
    )
    single = replace(pair.job, parts=tuple(replace(part, count=1) for part in pair.job.parts))
    assert next_ways(replace(known, job=single), cord, (eye, hook)) == []


def test_two_jaws_come_from_the_written_text(tmp_path: Path) -> None:
    """Both jaws stand on the plate, mirrored, on an axis each."""
    assert {joint.name for joint in two_jaws(tmp_path).mechanism.joints} == {"plate to jaw", "plate to jaw#2"}

"""The Heron put together: no two parts are in one place, bores that hardware joins are one axis, jaws close and open."""

from __future__ import annotations

from itertools import combinations

import numpy as np
import pytest
from manifold3d import Manifold

from planner.assembly import claims_of
from planner.job import copy_name, read_job, shipped
from planner.mesh import read_solid
from planner.survey import survey
from sample_parts.dimensions import HERON as D
from sample_parts.places import MARKER, POST_X, places, stood, text, turn_of

JOB = read_job(shipped("sample_parts") / "heron" / "job.toml")
ROUNDING_MM3 = 0.01


@pytest.fixture(name="bodies", scope="module")
def _bodies() -> dict[str, Manifold]:
    """Return every copy in its place."""
    return {copy: stood(copy) for copy in places()}


def _turned(body: Manifold, side: int, deg: float) -> Manifold:
    """Return a body opened with the jaw of one side."""
    at = np.array([POST_X, side * D.post_apart / 2, 0.0])
    return body.translate(tuple(-at)).rotate((0.0, 0.0, side * deg)).translate(tuple(at))


def test_the_job_states_the_places_that_the_dimensions_give() -> None:
    """Every copy of every part has a place, and the job's text is what the code writes today."""
    copies = {copy_name(part.name, n) for part in JOB.parts for n in range(1, part.count + 1)}
    written = (shipped("sample_parts") / "heron" / "job.toml").read_text(encoding="utf-8")

    assert {place.part for place in JOB.places} == copies == set(places())
    assert MARKER in written
    assert text() in written


def test_no_two_parts_are_in_one_place(bodies: dict[str, Manifold]) -> None:
    """Of 351 pairs none shares more than a hundredth of a cubic millimetre."""
    shared = {pair: (bodies[pair[0]] ^ bodies[pair[1]]).volume() for pair in combinations(bodies, 2)}

    assert len(shared) == 27 * 26 // 2
    assert {pair: mm3 for pair, mm3 in shared.items() if mm3 > ROUNDING_MM3} == {}


def test_bores_that_hardware_joins_are_one_axis() -> None:
    """Each bore that hardware claims in several parts lies within 0.3 mm of one of every other part's, and parallel."""
    claims = claims_of(JOB, {part.name: survey(read_solid(part.mesh)) for part in JOB.parts})
    assert not claims.missing
    for hardware in JOB.hardware:
        lines: dict[str, list[tuple[np.ndarray, np.ndarray]]] = {}
        for claim in (claim for claim in claims.claims if claim.hardware.name == hardware.name):
            for place in (place for place in JOB.places if place.part.split("#")[0] == claim.part):
                turn = turn_of(place.turn[:3], place.turn[3])
                at = turn @ np.array(claim.bore.centre_mm) + np.array(place.at_mm)
                lines.setdefault(claim.part, []).append((at, turn @ np.array(claim.bore.axis)))
        ends = {"bracket-left", "bracket-right"}
        for one, other in combinations(lines, 2):
            if {one, other} == ends:
                continue
            few, many = (one, other) if one in ends else (other, one)
            for at, way in lines[few]:
                beside = [
                    np.linalg.norm(np.cross(there - at, way))
                    for there, along in lines[many]
                    if abs(along @ way) > 0.999
                ]
                assert min(beside) < 0.3, (hardware.name, few, many)


@pytest.mark.parametrize(("deg", "meets"), [(-3.2, True), (-2.5, False), (12.0, False), (25.0, False), (28.0, False)])
def test_both_jaws_close_to_their_pads_and_open_wide(bodies: dict[str, Manifold], deg: float, meets: bool) -> None:
    """Turned together they meet at 3 degrees of closing, pad on pad, and are free of everything up to 28 of opening."""
    one = _turned(bodies["jaw"] + bodies["pad"], 1, deg)
    other = _turned(bodies["jaw#2"] + bodies["pad#2"], -1, deg)
    rest = Manifold.compose([body for copy, body in bodies.items() if not copy.startswith(("jaw", "pad"))])

    assert ((one ^ other).volume() > ROUNDING_MM3) is meets
    assert (one ^ rest).volume() < ROUNDING_MM3


def test_the_cord_reaches_the_hook_through_free_air(bodies: dict[str, Manifold]) -> None:
    """From the channel's mouth to each hook a cord of its own thickness meets nothing but the jaw that it pulls."""
    hooks = {point.name: np.array(point.at_mm) for point in JOB.points if point.part == "jaw"}
    stands = {place.part: place for place in JOB.places}
    for side, jaw in ((1, "jaw"), (-1, "jaw#2")):
        place = stands[jaw]
        hook = turn_of(place.turn[:3], place.turn[3]) @ hooks["hook"] + np.array(place.at_mm)
        x, y, z = stands["deck"].at_mm
        mouth = (x + D.deck_length / 2 - D.clevis_long + 0.6, y + side * D.channel_y, z)
        cord = Manifold.batch_hull([Manifold.sphere(D.cord / 2, 16).translate(tuple(at)) for at in (mouth, hook)])
        others = Manifold.compose([body for copy, body in bodies.items() if copy != jaw])
        assert (cord ^ others).volume() < ROUNDING_MM3, jaw

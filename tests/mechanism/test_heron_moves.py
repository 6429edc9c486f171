"""The Heron at five sizes: range, travel and arm against a model in plain geometry that shares no code with the room.

The model itself is held against closed forms first.
"""

from __future__ import annotations

import math
import tomllib
from dataclasses import replace

import numpy as np
import pytest
import shapely

from planner.assembly import claims_of
from planner.job import Job, read_job, shipped
from planner.mechanism import Frame, Mechanism, mechanism_of, ranges_of
from planner.mechanism.cord.cord_run import jumps_of, run_of
from planner.mechanism.cord.path.resolve_path import resolve_path
from planner.mechanism.cord.path.settled_path import settled
from planner.mechanism.cord.small_moves import motions_over
from planner.mesh import Solid, read_solid
from planner.survey import Survey, survey
from tests.mechanism.heron_independent import CLEAR_MM, SIZES, TABLE, first_met, jaws, section, text, turned
from tests.shapes import bored_plate

ROWS = tomllib.loads(TABLE.read_text(encoding="utf-8"))["size"]
NEEDS = (-2.5, 25.0)


def test_a_section_of_a_bored_plate_is_its_outline_less_the_bores() -> None:
    """A plate of 30 x 20 mm with a bore of 48 sides: area by the formula of a regular polygon."""
    plate = bored_plate(30, 20, 4, [(10, 10, 6.0, 48)])
    area = section(plate.corners_mm, 2.01).area

    assert area == pytest.approx(600.0 - 48 / 2 * 9.0 * math.sin(2 * math.pi / 48), abs=1e-3)


def test_turning_follows_the_right_hand() -> None:
    """A quarter turn about z takes x to y, half a turn about x takes y to -y; two points by hand."""
    assert turned(np.array([[1.0, 0.0, 0.0]]), (0, 0, 1), 90.0)[0] == pytest.approx([0, 1, 0], abs=1e-12)
    assert turned(np.array([[1.0, 2.0, 3.0]]), (2, 0, 0), 180.0)[0] == pytest.approx([1, -2, -3], abs=1e-12)


@pytest.mark.parametrize("clear_mm", [0.0, 0.5])
def test_a_bar_meets_a_wall_where_trigonometry_says(clear_mm: float) -> None:
    """A bar 40 mm long and 6 wide turns about its end: its corner is 20 mm high at asin(20 / R) - atan(3 / 40)."""
    bar, wall = shapely.box(0, -3, 40, 3), shapely.box(-100, 20, 100, 30)
    near = lambda deg: shapely.affinity.rotate(bar, deg, origin=(0, 0)).distance(wall)  # noqa: E731
    meant = math.degrees(math.asin((20.0 - clear_mm) / math.hypot(40, 3)) - math.atan2(3, 40))

    assert first_met(near, 1, clear_mm) == pytest.approx(meant, abs=0.01)


def test_the_models_arm_is_that_of_two_sides_and_an_angle() -> None:
    """Arm of a chord in space: R D sin(angle) over its length (law of cosines, differentiated)."""
    model = jaws()
    post = np.array(model.posts[0])
    hook, mouth, deg = model.hook[:2] - post, model.mouth[:2] - post, 10.0
    angle = math.atan2(hook[1], hook[0]) - math.atan2(mouth[1], mouth[0]) + math.radians(deg)
    sides = math.hypot(*hook) * math.hypot(*mouth)

    assert model.arm_mm(deg, 1.5) == pytest.approx(
        1.5**2 * sides * math.sin(angle) / model.length_mm(deg, 1.5), abs=1e-3
    )


def test_the_table_is_what_the_model_gives_today() -> None:
    """The committed answers come from the committed meshes."""
    assert TABLE.read_text(encoding="utf-8") == text(CLEAR_MM)


Device = tuple[Job, dict[str, Solid], dict[str, Survey], Mechanism]


def _with(names: set[str]) -> Device:
    """Return the Heron with some of its parts, and its mechanism."""
    whole = read_job(shipped("sample_parts") / "heron" / "job.toml")
    job = replace(
        whole,
        parts=tuple(part for part in whole.parts if part.name in names),
        hardware=tuple(h for h in whole.hardware if set(h.joins) <= names),
        joints=tuple(joint for joint in whole.joints if set(joint.between) <= names),
        places=tuple(place for place in whole.places if place.part.split("#")[0] in names),
    )
    solids = {part.name: read_solid(part.mesh) for part in job.parts}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    found = mechanism_of(job, solids, surveys, claims_of(job, surveys).claims)
    assert found is not None
    return job, solids, surveys, found


@pytest.fixture(name="near_jaws", scope="module")
def _near_jaws() -> Device:
    """Return the jaws and what stands about them; the rest moves nothing of theirs and stands in nobody's way."""
    return _with({"deck", "jaw", "pad", "cap"})


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['size']:g}")
def test_ranges_are_those_of_the_flat_model(near_jaws: Device, row: dict[str, float]) -> None:
    """Both jaws go as far as outlines say, within half a degree: with a running gap, and bare at the ends of the sizes."""
    job, solids, _, mechanism = near_jaws
    kinds = {"clear": CLEAR_MM} | ({"bare": 0.0} if row["size"] in (min(SIZES), max(SIZES)) else {})
    for kind, clear_mm in kinds.items():
        found = ranges_of(job, solids, mechanism, clearance_mm=clear_mm, factor=row["size"])
        for joint in ("deck to jaw", "deck to jaw#2"):
            meant = (row[f"{kind}_low_deg"], row[f"{kind}_high_deg"])
            assert found.of(joint).free_deg == pytest.approx(meant, abs=0.5), (kind, joint)


def test_travel_and_arms_are_those_of_chords() -> None:
    """Travel within 0.1 mm, arm and so lever within 2 %, at five sizes: the cord's way as the job writes it."""
    job, solids, surveys, mechanism = _with({"deck", "jaw", "anchor", "pulley"})
    cord = next(cord for cord in job.cords if cord.name == "pull cord")
    stops = resolve_path(job, solids, surveys, claims_of(job, surveys).claims, cord)
    assert not isinstance(stops, str), stops

    def frames(deg: float) -> dict[str, Frame]:
        return mechanism.frames_at({"deck to jaw": deg})

    for row in ROWS:
        size = row["size"]
        path = settled(stops, [frames(deg) for deg in (0.0, *NEEDS)], size, cord.diameter_mm)
        run = run_of(path, motions_over(frames, NEEDS), size, cord.diameter_mm)
        assert run.travel_mm == pytest.approx(row["travel_mm"], abs=0.1), size
        assert run.arm_mm == pytest.approx((row["arm_low_mm"], row["arm_high_mm"]), rel=0.02), size
        assert not jumps_of([run])
    assert tuple(row["size"] for row in ROWS) == SIZES

"""What a job writes about a cord's way, on a small device: a plate with bores, and a pulley on it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import claims_of
from planner.job import Cord, Job, PathPoint, read_job
from planner.mechanism.cord.path.path_stop import LineStop, PathStop, PointStop, WrapStop
from planner.mechanism.cord.path.resolve_path import resolve_path
from planner.mesh import Solid
from planner.survey import Survey
from tests.mechanism.cord.path.known_parts import plate, pulley
from tests.shapes import written

TEXT = """
[job]
name = "pulley on a plate"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"

[[part]]
name = "plate"
mesh = "plate.stl"
duty = "load"

[[part]]
name = "pulley"
mesh = "pulley.stl"
count = 2
duty = "load"

[[hardware]]
name = "axle"
kind = "machine-screw"
diameter_mm = 3.0
bore_mm = 3.4
fit = "turning"
joins = ["pulley", "plate"]

[[point]]
part = "plate"
name = "hook"
at_mm = [1.0, 2.0, 3.0]

[[cord]]
name = "pull"
part = "plate"
diameter_mm = 1.0
channel_mm = 2.0
path = ["plate:ch1", "plate:ch2", "pulley#2:b1", "plate:b2", "plate:hook", "pulley:[0, 0, 9]"]
"""


Known = tuple[Job, dict[str, Solid], dict[str, Survey]]


@pytest.fixture(name="known", scope="module")
def _known(tmp_path_factory: pytest.TempPathFactory) -> Known:
    folder = tmp_path_factory.mktemp("pulleys")
    parts = {"plate": plate(), "pulley": pulley()}
    for name, (solid, _) in parts.items():
        written(solid, folder / f"{name}.stl")
    (folder / "job.toml").write_text(TEXT, encoding="utf-8")
    solids = {name: solid for name, (solid, _) in parts.items()}
    return read_job(folder / "job.toml"), solids, {name: survey for name, (_, survey) in parts.items()}


def resolved(known: Known, *path: str) -> tuple[PathStop, ...] | str:
    """Return what becomes of a path, of the cord's own where none is given."""
    job, solids, surveys = known
    cord: Cord = job.cords[0]
    if path:
        points = tuple(PathPoint(copy=text.split(":")[0], feature=text.split(":")[1]) for text in path)
        cord = replace(cord, path=points)
    return resolve_path(job, solids, surveys, claims_of(job, surveys).claims, cord)


def test_every_way_to_name_a_place_is_understood(known: Known) -> None:
    """Channels in the order of their bores, a pulley's groove at half its thickness, a screw, a point, coordinates."""
    found = resolved(known)
    assert not isinstance(found, str)
    one, two, groove, screw, hook, free = found

    assert isinstance(one, LineStop)
    assert isinstance(two, LineStop)
    assert sorted(point[0] for point in (*one.line_mm, *two.line_mm)) == pytest.approx([8.0, 8.0, 32.0, 32.0], abs=0.01)
    assert sorted(point[2] for point in one.line_mm) == pytest.approx([0.0, 12.0], abs=0.01)
    assert isinstance(groove, WrapStop)
    assert groove.copy == "pulley#2"
    assert groove.drawn_mm == pytest.approx(4.0, abs=0.03)
    assert groove.centre_mm[2] == pytest.approx(3.0, abs=0.1)
    assert groove.axle_mm == 1.5  # it turns on the screw
    assert isinstance(screw, WrapStop)
    assert (screw.bought_mm, screw.drawn_mm, screw.slides) == (1.5, 0.0, True)
    assert isinstance(hook, PointStop)
    assert hook.at_mm == (1.0, 2.0, 3.0)
    assert isinstance(free, PointStop)
    assert free.at_mm == (0.0, 0.0, 9.0)


def test_a_wrap_named_twice_in_a_row_is_one_that_the_cord_crosses_itself_at(known: Known) -> None:
    """One stop, looped."""
    found = resolved(known, "plate:hook", "plate:b2", "plate:b2", "plate:ch1")

    assert len(found) == 3
    assert isinstance(found[1], WrapStop)
    assert found[1].loop


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("plat:ch1", "no part is called 'plat'; did you mean 'plate'?"),
        ("plate#2:ch1", "plate#2 is named, but the device has 1 of plate"),
        ("plate:ch3", "plate has 2 channels for a cord of 1 mm, and plate:ch3 is not among them"),
        ("pulley:ch1", "pulley has no channel for a cord of 1 mm, and pulley:ch1 is not among them"),
        ("plate:hok", "plate has no point or feature 'hok'; did you mean 'hook'?"),
        ("plate:b9", "plate has no bore b9; known here: b1, b2, b3"),
        ("plate:b1", "nothing is known to lie in b1 of plate, and plate is not round about it"),
    ],
)
def test_what_cannot_be_followed_is_said_in_one_sentence(known: Known, place: str, said: str) -> None:
    """With the nearest name, or with what there is."""
    assert resolved(known, "plate:hook", place) == f"the path of pull cannot be followed: {said}"


def test_a_cord_without_a_path_says_so(known: Known) -> None:
    """Nothing is guessed."""
    job, solids, surveys = known

    assert resolve_path(job, solids, surveys, [], replace(job.cords[0], path=())) == (
        "the path of pull is not stated: write its path"
    )

"""``[[part]]``: scale, pose, directions and meshes, read or refused in one sentence."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job.file.part_tables import implied_part
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'


@pytest.mark.parametrize(
    ("text", "scale"),
    [("", None), ('scale = "job"\n', None), ("scale = 90\n", 90.0), ("scale = [90, 100, 110]\n", (90, 100, 110))],
)
def test_a_part_has_the_jobs_scale_or_its_own(text: str, scale: object, make_job: MakeJob) -> None:
    """Left out, or "job": that of the device; else one percent, or three."""
    assert make_job(HEAD + text, a=cuboid(10, 10, 10)).parts[0].scale_percent == scale


def test_directions_become_unit_vectors(make_job: MakeJob) -> None:
    """A pose of [0, 3, -4] faces down along (0, 0.6, -0.8); "auto" is left to the program."""
    stated = make_job(HEAD + "pose = [0, 3, -4]\n", a=cuboid(10, 10, 10)).parts[0]
    left = make_job(HEAD + 'pose = "auto"\n', a=cuboid(10, 10, 10)).parts[0]

    assert stated.pose == pytest.approx((0.0, 0.6, -0.8))
    assert left.pose is None


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        ("pose = [0, 0, 0]\n", "points nowhere"),
        ('pose = "up"\n', "'up' is not known"),
        ('scale = "half"\n', "'half' is not known"),
        ("scale = [90, 100, 110]\nrebore = true\n", "cannot be re-bored"),
        ("scale = 0.5\n", "scale"),
        ('duty = "lode"\n', "load"),
        ('mesh_unit = "furlong"\n', "mesh_unit"),
    ],
)
def test_what_cannot_be_meant_is_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """Each mistake is one sentence that names what is near."""
    with pytest.raises(JobError, match=wrong):
        make_job(HEAD + text, a=cuboid(10, 10, 10))


def test_a_mesh_that_is_not_there_is_answered_with_the_nearest(make_job: MakeJob) -> None:
    """The name of a file that lies beside it."""
    with pytest.raises(JobError, match=r"there is no file aa\.stl.*a\.stl"):
        make_job(HEAD.replace("a.stl", "aa.stl"), a=cuboid(10, 10, 10))


def test_a_name_makes_a_part_only_of_a_mesh_beside_the_others(tmp_path: Path) -> None:
    """A mesh of that name next to the others; never one by a path out of that folder."""
    (tmp_path / "in").mkdir()
    (tmp_path / "in" / "pin.stl").touch()
    (tmp_path / "out.stl").touch()
    made = implied_part("pin", [tmp_path / "in"])

    assert made is not None
    assert made.mesh == tmp_path / "in" / "pin.stl"
    assert implied_part("../out", [tmp_path / "in"]) is None
    assert implied_part("nut", [tmp_path / "in"]) is None

"""What a job file says of movement: read as written, refused in one sentence where it cannot be."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import PathPoint, read_job
from tests.shapes import cuboid, written

HEAD = '[job]\nname = "x"\n[[part]]\nname = "deck"\nmesh = "a.stl"\n[[part]]\nname = "jaw"\nmesh = "a.stl"\ncount = 2\n'


def _read(tmp_path: Path, text: str):  # type: ignore[no-untyped-def]
    written(cuboid(30, 20, 10), tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(HEAD + text, encoding="utf-8")
    return read_job(tmp_path / "job.toml")


def test_a_whole_mechanism_is_read_as_written(tmp_path: Path) -> None:
    """Every key of the contract comes back in the records; the first copy loses its needless number."""
    job = _read(
        tmp_path,
        '[[place]]\npart = "jaw#2"\nat_mm = [1, 2, 3]\nturn = [0, 0, 1, 90]\n'
        '[[point]]\npart = "jaw"\nname = "hook"\nat_mm = [-16, -4, 1.2]\n'
        '[[joint]]\nbetween = ["deck", "jaw#1"]\nhow = "turns"\nrest_deg = 5\nneeds_deg = [-10, 35]\n'
        "limits_deg = [-20, 40]\n"
        '[[joint]]\nbetween = ["jaw", "jaw#2"]\nhow = "slides"\nname = "across"\n'
        '[[cord]]\nname = "pull"\npart = "deck"\ndiameter_mm = 1.0\npath = ["deck:ch1", "jaw:[1, 2, 3.5]", "jaw#2:hook"]\n'
        'drives = "jaw"\nfrom = "wrist"\ngrip_at_mm = [70, 2, 0]\nequaliser = "bar"\nrate_n_per_mm = 0.2\nslack_mm = 1.5\n'
        '[drive]\njoint = "wrist"\narm_mm = 45.0\nrange_deg = [-10, 35]\n[use]\ngrip_n = 15\n',
    )
    assert job.places[0].part == "jaw#2"
    assert job.places[0].turn == (0.0, 0.0, 1.0, 90.0)
    assert job.points[0].at_mm == (-16.0, -4.0, 1.2)
    assert job.joints[0].between == job.joints[0].copies == ("deck", "jaw")
    assert job.joints[0].needs_deg == (-10.0, 35.0)
    assert (job.joints[1].between, job.joints[1].copies) == (("jaw", "jaw"), ("jaw", "jaw#2"))
    assert job.cords[0].path == (
        PathPoint(copy="deck", feature="ch1"),
        PathPoint(copy="jaw", at_mm=(1.0, 2.0, 3.5)),
        PathPoint(copy="jaw#2", feature="hook"),
    )
    assert job.cords[0].lever is None
    assert job.cords[0].slack_mm == 1.5
    assert job.drive is not None
    assert job.drive.range_deg == (-10.0, 35.0)
    assert job.use.grip_n == 15.0


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('[[place]]\npart = "jaw#3"\n', "there is no jaw#3"),
        ('[[place]]\npart = "jwa"\n', "no part is called 'jwa'"),
        ('[[place]]\npart = "jaw"\nturn = [0, 0, 0, 90]\n', "points nowhere"),
        ('[[place]]\npart = "jaw"\n[[place]]\npart = "jaw#1"\n', "jaw"),
        ('[[joint]]\nbetween = ["jaw", "jaw#1"]\nhow = "turns"\n', "two different parts"),
        ('[[joint]]\nbetween = ["deck", "jaw"]\nhow = "turns"\nneeds_deg = [30, 10]\n', "30 is larger than 10"),
        ('[[cord]]\nname = "c"\npart = "deck"\ndiameter_mm = 1\npath = ["deck"]\n', "one place"),
        ('[[cord]]\nname = "c"\npart = "deck"\ndiameter_mm = 1\npath = ["deck", "jaw:a"]\n', "cannot be read"),
        ('[[cord]]\nname = "c"\npart = "deck"\ndiameter_mm = 1\npath = ["deck:a", "jaw:[1, 2]"]\n', "no point"),
        ('[[cord]]\nname = "c"\npart = "deck"\ndiameter_mm = 1\npath = ["deck:a", "jaw:[1, 2, NaN]"]\n', "no point"),
        ('[drive]\njoint = "wrist"\narm_mm = 0\n', "arm_mm"),
    ],
)
def test_what_cannot_be_meant_is_refused_in_one_sentence(tmp_path: Path, text: str, said: str) -> None:
    """The refusal names the key and what is wrong."""
    with pytest.raises(JobError) as refused:
        _read(tmp_path, text)
    assert said in str(refused.value)

"""``fitwright move``: joints with their ranges, exit codes, and JSON in the words of the contract."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
import trimesh

from tests.cli.running import run
from tests.mechanism.hinge_job import JOINT, STOP_DEG, hinge


def test_a_hinge_tells_where_it_stops_and_what_meets(tmp_path: Path) -> None:
    """The arm's side meets the block's corner at 10.14 degrees, 23.3 mm from the axis, by hand."""
    result = run("move", hinge(tmp_path, JOINT.format(low=-20, high=10)), "--json", "-")
    found: Any = json.loads(result.stdout)

    assert result.returncode == 0
    assert (found["schema"], found["verdict"]) == ("fitwright/move/1", "go")
    joint = found["joints"][0]
    assert (joint["name"], joint["parts"], joint["kind"]) == ("base to arm", ["base", "arm"], "turns")
    assert joint["free_deg"][1] == pytest.approx(STOP_DEG, abs=0.1)
    stop = max(joint["stops"], key=lambda one: one["at_deg"])
    assert stop["parts"] == ["base", "arm"]
    assert stop["at_mm"][:2] == pytest.approx([22.0, 8.0], abs=0.4)


def test_what_is_needed_and_not_free_is_no_go(tmp_path: Path) -> None:
    """15 degrees are needed: exit 1, with what is in the way and how much of it."""
    result = run("move", hinge(tmp_path, JOINT.format(low=-20, high=15)))

    assert result.returncode == 1
    assert "arm meets base" in result.stdout
    assert "15.0° is needed" in result.stdout
    assert all(len(line) <= 80 for line in result.stdout.splitlines())


def test_check_and_window_end_where_it_does_not_close(tmp_path: Path) -> None:
    """The rule of movement is one of the others: check is no-go for it, at every size."""
    path = hinge(tmp_path, JOINT.format(low=-20, high=15))
    checked: Any = json.loads(run("check", path, "--json", "-").stdout)
    windows: Any = json.loads(run("window", path, "--json", "-").stdout)

    assert any(f["rule"] == "move.range" and f["verdict"] == "no-go" for f in checked["findings"])
    assert windows["workable"]["low_percent"] is None


def test_a_device_in_which_nothing_moves_says_so(tmp_path: Path) -> None:
    """A folder of one part: nothing turns, and that is no fault."""
    hinge(tmp_path)
    (tmp_path / "arm.stl").unlink()
    (tmp_path / "job.toml").unlink()
    result = run("move", tmp_path)

    assert result.returncode == 0
    assert "no two parts are joined" in result.stdout


def test_meshes_of_no_known_unit_are_held(tmp_path: Path) -> None:
    """A hinge written in inches without a word of it: how it moves is open, and not a go."""
    path = hinge(tmp_path, JOINT.format(low=-20, high=10))
    for mesh in tmp_path.glob("*.stl"):
        drawn = trimesh.load_mesh(mesh)
        drawn.vertices = drawn.vertices / 25.4
        drawn.export(mesh)
    result = run("move", path)

    assert result.returncode == 1
    assert "unit of arm and base is open" in " ".join(result.stdout.split())

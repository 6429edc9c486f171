"""``fitwright strength``: a lever by hand, exit codes, and JSON in the words of the contract."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import run
from tests.shapes import bored_plate, written

TEXT = """
[job]
name = "lever"
mesh_unit = "mm"
printer = "bench-220"
material = "petg"
[[part]]
name = "lever"
mesh = "lever.stl"
duty = "load"
load_at_mm = [76.0, 10.0, 4.0]
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 5.0
fit = "turning"
joins = ["lever"]
"""


@pytest.fixture(name="lever")
def _lever(tmp_path: Path) -> Path:
    """Write a lever of 80 by 20 by 8 with a bore at one end."""
    written(bored_plate(80, 20, 8, [(10, 10, 5.3, 64)]), tmp_path / "lever.stl")
    (tmp_path / "job.toml").write_text(TEXT, encoding="utf-8")
    return tmp_path / "job.toml"


def test_a_lever_has_a_figure_and_more_load_ends_it(lever: Path) -> None:
    """10 N bends it by 660 N mm, over 500 mm³ or so: far below a tenth; 2000 N is no-go. Exit 0 and 1."""
    result = run("strength", lever, "--load", "10", "--json", "-")
    (part,) = json.loads(result.stdout)["parts"]
    more: Any = run("strength", lever, "--load", "2000")

    assert result.returncode == 0
    assert (part["part"], part["method"], part["known"], part["direction"]) == ("lever", "beam", True, "along")
    assert [abs(value) for value in part["load_n"]] == pytest.approx([0.0, 10.0, 0.0], abs=1e-6)
    assert 0.5 < part["share_percent"] < 10.0
    assert more.returncode == 1
    assert more.stdout.startswith("NO-GO")
    assert "No proof load for this device as it is" in more.stdout
    assert "Before use, put a proof load" in run("strength", lever, "--load", "10").stdout


def test_no_load_is_a_hold_that_says_what_to_state(lever: Path) -> None:
    """Nothing is guessed about how hard; a load of nothing is a mistake in the command."""
    result = run("strength", lever, "--part", "lever")

    assert result.returncode == 1
    assert "no load is stated" in result.stdout
    assert run("strength", lever, "--load", "0").returncode == 2

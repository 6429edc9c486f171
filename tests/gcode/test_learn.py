"""Learn: settings come out of a program as they went in, and the job file keeps all else."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from planner.errors import JobError, ProgramError
from planner.gcode import learnt
from planner.job import read_job, read_printer, read_settings, write_settings
from planner.layers.lines.paths import INFILL, INNER, OUTER, SOLID, TRAVEL
from planner.mesh import placed
from tests.gcode.writer import Program
from tests.shapes import cuboid, written

SETTINGS = read_settings("standard-0.4", Path())
PRINTER = read_printer("bench-220", Path())
JOB = """# kept: a comment
[job]
name = "x"   # kept, too
material = "petg"

[settings]
infill_speed_mm_s = 99.0  # from the old days
brim_mm = 3.0

[[part]]
name = "a"
mesh = "a.stl"
duty = "cover"
"""


@pytest.mark.parametrize("inches", [False, True])
def test_what_was_set_is_learnt(inches: bool, tmp_path: Path) -> None:
    """Speeds by kind, heights, width, temperatures, fan and acceleration come back, whatever the units."""
    feeds = {OUTER: 30.0, INNER: 50.0, SOLID: 45.0, INFILL: 70.0, TRAVEL: 120.0}
    program = Program(
        feeds_mm_s=feeds, first_mm_s=20.0, nozzle_c=232.0, bed_c=71.0, also=("M204 S1200", "M106 S102"), inches=inches
    )
    path = program.write(tmp_path / "a.gcode", [placed(cuboid(30, 24, 8), 60, 60, 0)], SETTINGS)
    found = learnt(path, PRINTER).values

    assert found["outer_contour_speed_mm_s"] == pytest.approx(30, abs=0.1)
    assert found["inner_contour_speed_mm_s"] == pytest.approx(50, abs=0.1)
    assert found["solid_fill_speed_mm_s"] == pytest.approx(45, abs=0.1)
    assert found["infill_speed_mm_s"] == pytest.approx(70, abs=0.1)
    assert found["travel_speed_mm_s"] == pytest.approx(120, abs=0.1)
    assert found["first_layer_speed_mm_s"] == pytest.approx(20, abs=0.1)
    assert (found["layer_height_mm"], found["first_layer_height_mm"]) == (0.2, 0.24)
    assert found["line_width_mm"] == pytest.approx(0.45, abs=0.01)
    assert (found["nozzle_c"], found["bed_c"], found["fan_percent"]) == (232.0, 71.0, 40.0)
    assert found["acceleration_mm_s2"] == 1200.0


def test_what_a_program_does_not_say_is_not_learnt(tmp_path: Path) -> None:
    """No acceleration in it, none learnt, and the reason is told."""
    path = Program().write(tmp_path / "a.gcode", [placed(cuboid(20, 20, 4), 60, 60, 0)], SETTINGS)
    found = learnt(path, PRINTER)

    assert "acceleration_mm_s2" not in found.values
    assert "acceleration_mm_s2" in found.missing


def test_the_job_keeps_all_else(tmp_path: Path) -> None:
    """Comments, other tables and other settings stay; a second time changes nothing more."""
    written(cuboid(10, 10, 10), tmp_path / "a.stl")
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    write_settings(path, {"infill_speed_mm_s": 70.0, "layer_height_mm": 0.16}, "learnt")
    text = path.read_text(encoding="utf-8")
    write_settings(path, {"infill_speed_mm_s": 70.0, "layer_height_mm": 0.16}, "learnt")

    assert path.read_text(encoding="utf-8") == text
    assert "# kept: a comment" in text
    assert "infill_speed_mm_s = 70  # from the old days" in text
    assert tomllib.loads(text)["settings"] == {"infill_speed_mm_s": 70, "brim_mm": 3.0, "layer_height_mm": 0.16}
    assert read_job(path).settings.layer_height_mm.value == 0.16


def test_a_job_that_would_not_load_stays_as_it_was(tmp_path: Path) -> None:
    """A value that cannot be is refused and the file is untouched."""
    written(cuboid(10, 10, 10), tmp_path / "a.stl")
    path = tmp_path / "job.toml"
    path.write_text(JOB, encoding="utf-8")
    with pytest.raises(JobError):
        write_settings(path, {"layer_height_mm": -1.0}, "learnt")

    assert path.read_text(encoding="utf-8") == JOB
    assert sorted(file.name for file in tmp_path.iterdir()) == ["a.stl", "job.toml"]


def test_a_program_without_lines_teaches_nothing(tmp_path: Path) -> None:
    """One sentence."""
    (tmp_path / "a.gcode").write_text("G1 X10 F600\n", encoding="utf-8")
    with pytest.raises(ProgramError, match="lays filament"):
        learnt(tmp_path / "a.gcode", PRINTER)


def test_lines_on_the_bed_itself_have_no_width(tmp_path: Path) -> None:
    """A layer at height 0 tells none (it divided by it), and the job file refuses that height by its own name."""
    path, job = tmp_path / "a.gcode", tmp_path / "job.toml"
    path.write_text("M83\nG1 X50 Y0 F1200 E1\nG1 X50 Y50 E2\nG1 X0 Y50 E2\n", encoding="utf-8")
    job.write_text(JOB, encoding="utf-8")
    written(cuboid(30, 20, 5), tmp_path / "a.stl")
    found = learnt(path, PRINTER).values

    assert "line_width_mm" not in found
    with pytest.raises(JobError, match=r"^job\.toml \[settings\] first_layer_height_mm: 0 cannot be"):
        write_settings(job, {"first_layer_height_mm": 0.0}, "a.gcode")


@pytest.mark.parametrize(("z_mm", "feed"), [(0.0, 1800.0), (30.0, 1800.0), (0.2, 1e9)])
def test_nothing_is_learnt_that_no_job_can_hold(z_mm: float, feed: float, tmp_path: Path) -> None:
    """A first layer at height 0, or at 30 mm, or at a speed of a slip: it is told as missing, and the job still reads."""
    lines = ["G21", "G90", "M83", f"G1 Z{z_mm} F600", f"G1 X10 Y10 F{feed}", f"G1 X60 Y10 E2 F{feed}", "G1 X60 Y60 E2"]
    path = tmp_path / "odd.gcode"
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    found = learnt(path, PRINTER)
    written(cuboid(20, 20, 4), tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    write_settings(tmp_path / "job.toml", found.values, "learnt from odd.gcode")

    assert any("which no setting can be" in why for why in found.missing.values())
    assert set(found.values).isdisjoint(found.missing)
    read_job(tmp_path / "job.toml")

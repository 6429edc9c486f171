"""Every command as a person runs it: output, JSON, exit codes, and one sentence for what is wrong."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from planner.cli.app import app
from tests.shapes import DATA, ROOT, Manifold, bored_plate, cuboid, cylinder, solid_of, written


def run(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the program as its own process."""
    command = [sys.executable, "-W", "error", "-m", "planner", *map(str, words)]
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "COLUMNS": "80"}
    return subprocess.run(command, capture_output=True, encoding="utf-8", check=False, cwd=cwd, env=environment)


@pytest.fixture(name="folder")
def _folder(tmp_path: Path) -> Path:
    """Return a folder of strange meshes."""
    folder = tmp_path / "strange"
    folder.mkdir()
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48), (50, 30, 3.4, 48)]), folder / "plate.stl")
    written(solid_of(cylinder(70, 60, 96) - cylinder(62, 80, 96).translate((0, 0, -5))), folder / "cuff.stl")
    written(cuboid(30, 12, 5), folder / "front cover.stl")
    return folder


def test_check_of_a_folder_gives_a_verdict_with_its_cause(folder: Path) -> None:
    """With nothing but meshes a verdict comes out, with guesses, in 80 columns."""
    done = run("check", folder)

    assert done.returncode in (0, 1)
    assert any(word in done.stdout for word in ("GO", "HOLD", "NO-GO"))
    assert "M3" in done.stdout
    assert max(len(line) for line in done.stdout.splitlines()) <= 80
    assert "Traceback" not in done.stderr


def test_start_writes_a_job_that_check_reads(folder: Path) -> None:
    """``start`` marks every guess, and its job gives the same verdict as the folder did."""
    started = run(
        "start", folder, "--measure", "cuff=58/62", "--side", "left", "--bed", "220x220x240", "--have", "pla,petg"
    )
    text = (folder / "job.toml").read_text(encoding="utf-8")
    checked = run("check", folder / "job.toml", "--json", "-")
    result: Any = json.loads(checked.stdout)

    assert started.returncode == 0, started.stderr
    assert text.count("GUESS") >= 6
    assert 'sha256 = "' in text
    assert result["scale_percent"] == pytest.approx(100 * 58 / 62)
    assert "bore.tight" in {finding["rule"] for finding in result["findings"]}
    assert run("start", folder).returncode == 2


def test_inspect_measures_within_one_percent(tmp_path: Path) -> None:
    """A plate with bores comes back with volume, wall and bores."""
    path = written(bored_plate(60, 40, 4, [(20, 20, 5.3, 48)]), tmp_path / "plate.stl")
    mesh: Any = json.loads(run("inspect", path, "--json", "-").stdout)["meshes"][0]

    assert mesh["watertight"]
    assert mesh["volume_mm3"] == pytest.approx(60 * 40 * 4 - 48 / 2 * 2.65**2 * 0.13053 * 4, rel=0.01)
    assert mesh["walls"]["least_mm"] == pytest.approx(4.0, rel=0.01)
    assert mesh["bores"][0]["drawn_diameter_mm"] == pytest.approx(5.3, rel=0.01)
    assert mesh["bores"][0]["through"]
    assert set(mesh["walls"]["area_below_mm2"]) == {"0.45", "0.9", "1.35"}


def test_inspect_holds_on_a_doubtful_unit(tmp_path: Path) -> None:
    """A part of 5 mm asks for its unit, exit code 1; with --unit inch it is 127 mm."""
    path = written(cuboid(5, 2.5, 1.4), tmp_path / "a.stl")

    assert run("inspect", path).returncode == 1
    assert json.loads(run("inspect", path, "--unit", "inch", "--json", "-").stdout)["meshes"][0]["size_mm"][0] == 127.0


def test_window_and_settings_answer_in_json(folder: Path) -> None:
    """Both carry their schema, and stdout carries JSON only."""
    windows: Any = json.loads(run("window", folder, "--json", "-").stdout)
    settings: Any = json.loads(run("settings", folder, "--json", "-").stdout)

    assert windows["schema"] == "fitwright/window/1"
    assert {part["part"] for part in windows["parts"]} == {"plate", "cuff", "front cover"}
    assert settings["schema"] == "fitwright/settings/1"
    assert len(settings["findings"]) > 20


def test_plan_of_several_jobs_writes_a_chapter(folder: Path, tmp_path: Path) -> None:
    """Two jobs give two folders and their sums."""
    run("start", folder)
    done = run("plan", folder / "job.toml", folder / "job.toml", "-o", tmp_path / "out", "--quiet")
    sums: Any = json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))

    assert done.returncode in (0, 1), done.stderr
    assert done.stdout == ""
    assert len(sums["jobs"]) == 2
    assert len(list((tmp_path / "out").glob("*/report.html"))) == 2


def test_chapter_finds_every_job_of_a_folder_once(folder: Path, tmp_path: Path) -> None:
    """A folder of two jobs, one named again as a file; what holds no job is refused in one sentence."""
    for name in ("r07", "r11"):
        shutil.copytree(folder, tmp_path / "jobs" / name)
        run("start", tmp_path / "jobs" / name)
    done = run(
        "chapter", tmp_path / "jobs", tmp_path / "jobs" / "r07" / "job.toml", "-o", tmp_path / "out", "--json", "-"
    )
    sums: Any = json.loads(done.stdout)

    assert done.returncode in (0, 1), done.stderr
    assert len(sums["jobs"]) == 2
    assert sums == json.loads((tmp_path / "out" / "chapter.json").read_text(encoding="utf-8"))
    assert {"printers", "spools", "prints"} <= set(sums)
    nothing = run("chapter", tmp_path / "out", "-o", tmp_path / "none")
    assert nothing.returncode == 2
    assert "job.toml" in nothing.stderr


def test_what_is_wrong_with_one_of_several_jobs_names_its_path(folder: Path, tmp_path: Path) -> None:
    """All are called job.toml; the sentence says which one it is about."""
    run("start", folder)
    bad = tmp_path / "bad"
    shutil.copytree(folder, bad)
    with (bad / "job.toml").open("a", encoding="utf-8") as file:
        file.write("[nonsense]\n")
    done = run("plan", folder / "job.toml", bad / "job.toml", "-o", tmp_path / "out")

    assert done.returncode == 2
    assert str(bad / "job.toml") in done.stderr
    assert not (tmp_path / "out").exists()


def test_scale_printer_and_material_can_be_tried(folder: Path) -> None:
    """A tried scale shows in the result; a larger one no longer fits the small bed."""
    small: Any = json.loads(run("check", folder, "--scale", "50", "--json", "-").stdout)
    large: Any = json.loads(run("check", folder, "--scale", "400", "--printer", "small-180", "--json", "-").stdout)

    assert small["scale_percent"] == 50.0
    assert "bed.over" in {f["rule"] for f in large["findings"] if f["verdict"] == "no-go"}


WRONG = [
    ("check", "nowhere.toml"),
    ("check", "."),
    ("inspect", "nothing.stl"),
    ("check", "{folder}", "--scale", "-5"),
    ("check", "{folder}", "--printer", "bench-2200"),
    ("check", "{folder}", "--material", "peetg"),
    ("start", "{folder}", "--measure", "cuf=58"),
    ("start", "{folder}", "--measure", "cuff"),
    ("start", "{folder}", "--side", "up"),
    ("start", "{folder}", "--bed", "220"),
    ("start", "{folder}", "--have", "petgg"),
    ("plan", "{folder}", "--unit", "furlong"),
    ("audit", "nothing.gcode", "--job", "{folder}"),
    ("learn", "nothing.gcode", "--job", "{folder}"),
    ("coupon", "--bore", "90"),
    ("coupon", "--printer", "bench-2200"),
    ("calibrate", "nothing.toml"),
    ("chek",),
]


@pytest.mark.parametrize("words", WRONG, ids=" ".join)
def test_what_is_wrong_gives_one_sentence_and_exit_2(words: tuple[str, ...], folder: Path, tmp_path: Path) -> None:
    """Bad words, files and values end with 2 and never with a traceback."""
    (tmp_path / "empty").mkdir()
    done = run(*(word.replace("{folder}", str(folder)) for word in words), cwd=tmp_path / "empty")

    assert done.returncode == 2
    assert done.stdout == ""
    assert "Traceback" not in done.stderr
    assert done.stderr.strip()


def test_from_coupon_to_an_own_profile_and_back(folder: Path, tmp_path: Path) -> None:
    """The coupon is written, its readings are filled in, the profile is fitted, and a check uses it; nothing is overwritten."""
    assert run("coupon", "-o", "c", cwd=tmp_path).returncode == 0
    path = tmp_path / "c" / "readings.toml"
    lines = path.read_text(encoding="utf-8").splitlines()
    for k, line in enumerate(lines):
        if line.startswith("# measured_mm"):
            inside = float(lines[k - 1].split("=")[1])
            lines[k] = f"measured_mm = {inside - 0.13:.2f}"
    path.write_text("\n".join(lines), encoding="utf-8")
    filled = path.read_text(encoding="utf-8")
    assert run("coupon", "-o", "c", cwd=tmp_path).returncode == 0
    done = run("calibrate", "c/readings.toml", "-o", "mine.toml", "--json", "-", cwd=tmp_path)
    found: Any = json.loads(done.stdout)
    checked = run("check", folder, "--printer", tmp_path / "mine.toml", "--json", "-")

    assert path.read_text(encoding="utf-8") == filled
    assert found["undersize"]["upright_mm"]["value"] == pytest.approx(0.13, abs=0.01)
    assert checked.returncode in (0, 1), checked.stderr
    assert "printer.calibrated" in {f["rule"] for f in json.loads(checked.stdout)["findings"]}


def test_the_demo_is_planned(tmp_path: Path) -> None:
    """``demo`` copies the sample, plans it and says where the report is."""
    done = run("demo", tmp_path / "heron")

    assert done.returncode == 0, done.stderr
    assert (tmp_path / "heron" / "plan" / "report.html").is_file()
    assert "report.html" in done.stdout
    assert max(len(line) for line in done.stdout.splitlines() if "report:" not in line) <= 80


def test_every_command_has_help_with_an_example() -> None:
    """``--help`` of each command shows how it is used."""
    for command in app.registered_commands:
        assert command.callback is not None
        assert "Example" in (command.callback.__doc__ or ""), command.callback.__name__


def test_help_imports_nothing_heavy() -> None:
    """``--help`` loads no geometry engine."""
    code = "import sys; import planner.cli.app; print([m for m in ('numpy', 'trimesh', 'numba', 'shapely') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)

    assert done.stdout.strip() == "[]"


def test_hostile_meshes_in_a_job_never_trace_back(tmp_path: Path) -> None:
    """A job over damaged meshes ends with a sentence or a hold."""
    for path in sorted((DATA / "meshes").glob("*.[os3]*")):
        (tmp_path / "job.toml").write_text(
            f'[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "{path.as_posix()}"\nduty = "load"\n',
            encoding="utf-8",
        )
        done = run("check", tmp_path / "job.toml")
        assert done.returncode in (0, 1, 2), path.name
        assert "Traceback" not in done.stderr, path.name


def test_two_bodies_in_one_file_are_one_part(tmp_path: Path) -> None:
    """A printed-in-place pair is measured as it is."""
    pair = solid_of(Manifold.cube((20, 20, 5)) + Manifold.cube((20, 20, 5)).translate((30, 0, 0)))
    mesh: Any = json.loads(run("inspect", written(pair, tmp_path / "p.stl"), "--json", "-").stdout)["meshes"][0]

    assert mesh["bodies"] == 2

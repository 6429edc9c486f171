"""Every block of the README does what it says: here, or word for word in ``.ci/run``."""

from __future__ import annotations

import json
import re
import shlex
import shutil
from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import printer_text, read_job, read_settings
from planner.mesh import placed
from tests.cli.running import run
from tests.gcode.writer import Program
from tests.shapes import bored_plate, cuboid, written

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def _blocks(kind: str) -> list[str]:
    """Return the fenced blocks of one kind."""
    return re.findall(rf"```{kind}\n(.*?)```", README, flags=re.DOTALL)


def test_python_blocks_run(heron: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The Python example prints a verdict and a percent."""
    for block in _blocks("python"):
        exec(compile(block, "README.md", "exec"), {"heron": heron})  # noqa: S102  the README is ours

    assert capsys.readouterr().out.splitlines()[0] == "go-with-work"


def test_console_blocks_run_in_order(tmp_path: Path) -> None:
    """The way from strange meshes to a verdict works as it is written."""
    written(bored_plate(60, 40, 8, [(10, 10, 3.4, 48)]), tmp_path / "meshes" / "plate.stl")
    written(cuboid(62, 40, 30), tmp_path / "meshes" / "cuff.stl")
    lines = _blocks("console")[0].splitlines()
    for line in lines:
        words = shlex.split(line.removeprefix("$ "))
        assert words[0] == "fitwright"
        done = run(*words[1:], cwd=tmp_path)
        assert done.returncode in (0, 1), (line, done.stderr)

    assert len(lines) == 3


def test_the_whole_small_job_works(heron: Path, tmp_path: Path) -> None:
    """With the meshes of the sample device it is checked as it stands, on no guess, and every table is used."""
    shutil.copytree(heron.parent / "parts", tmp_path / "parts")
    (tmp_path / "job.toml").write_text(_blocks("toml")[0], encoding="utf-8")
    done = run("check", "job.toml", "--json", "check.json", cwd=tmp_path)
    told = json.loads((tmp_path / "check.json").read_text(encoding="utf-8"))
    job = read_job(tmp_path / "job.toml")

    assert done.returncode == 0, done.stdout
    assert told["guesses"] == []
    assert told["scale_percent"] == pytest.approx(100.0 * (58.0 + 2 * 3.0) / 62.0)
    assert job.size.mirrored
    assert all((job.hardware, job.gaps, job.cords, job.straps, job.use.kept))


def test_the_blocks_about_programs_run(tmp_path: Path) -> None:
    """A program of one plate is what was planned, and its settings are learnt."""
    plate = bored_plate(30, 20, 6, [(10, 10, 5, 32)])
    written(plate, tmp_path / "a.stl")
    (tmp_path / "job.toml").write_text(
        '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\npose = [0, 0, -1]\n',
        encoding="utf-8",
    )
    settings = read_settings("standard-0.4", tmp_path)
    Program().write(tmp_path / "plate.gcode", [placed(plate, 60, 60, 20)], settings)
    for line in _blocks("console")[1].splitlines():
        done = run(*shlex.split(line)[2:], cwd=tmp_path)
        assert done.returncode == 0, (line, done.stdout, done.stderr)


def test_the_block_about_a_failed_plate_runs(tmp_path: Path) -> None:
    """The judgement comes out and the log is written beside the job."""
    written(cuboid(60, 40, 12), tmp_path / "jaw.stl")
    (tmp_path / "job.toml").write_text(
        '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "jaw"\nmesh = "jaw.stl"\ncount = 2\nduty = "cover"\n'
    )
    for line in _blocks("console")[2].splitlines():
        done = run(*shlex.split(line)[2:], cwd=tmp_path)
        assert done.returncode in (0, 1), (line, done.stderr)
        assert "plate 1" in done.stdout.splitlines()[0]

    assert (tmp_path / "print-log.csv").is_file()


def test_shell_blocks_are_run_by_ci_and_said_for_both_systems() -> None:
    """Both commands stand in two shell blocks, .ci/run takes them from there, and PowerShell says the same."""
    shell, power = _blocks("sh"), _blocks("powershell")
    ci = (ROOT / ".ci" / "run").read_text(encoding="utf-8")

    assert len(shell) == len(power) == 2
    assert "$(block 1)" in ci
    assert "$(block 2)" in ci
    for unix, windows in zip(shell, power, strict=True):
        plain = unix.replace("python3 ", "py ").replace(".venv/bin/", ".venv\\Scripts\\").replace(" && ", "; ")
        assert plain == windows


def test_every_command_is_in_the_readme() -> None:
    """The table names each command that the program has."""
    from planner.cli.app import app

    for command in app.registered_commands:
        assert command.callback is not None
        assert f"`fitwright {command.callback.__name__}" in README


def test_links_and_pictures_exist() -> None:
    """What the README shows is there."""
    for path in re.findall(r"\]\(([^)]+)\)", README):
        assert (ROOT / path).exists(), path


def test_the_block_about_movement_reads_as_it_stands(heron: Path, tmp_path: Path) -> None:
    """Joint, place, point, cord and drive: read by the program's own reader."""
    shutil.copytree(heron.parent / "parts", tmp_path / "parts")
    parts = "".join(
        f'[[part]]\nname = "{name}"\nmesh = "parts/{name}.stl"\ncount = 2\n' for name in ("deck", "jaw", "pulley")
    )
    (tmp_path / "job.toml").write_text(f'[job]\nname = "x"\n{parts}{_blocks("toml")[1]}', encoding="utf-8")
    job = read_job(tmp_path / "job.toml")

    assert job.joints[0].needs_deg == (-2.5, 25.0)
    assert job.places[0].turn == (1.0, 0.0, 0.0, 180.0)
    assert [point.feature for point in job.cords[0].path] == ["b1", "ch2", "hook"]
    assert job.drive is not None
    assert (job.drive.arm_mm, job.use.grip_n) == (28.0, 1.2)


def test_the_block_about_plates_reads_as_it_stands(heron: Path, tmp_path: Path) -> None:
    """A bed of five corners with a zone, a spare, and who shares a plate: read by the program's own readers."""
    bed, rules = _blocks("toml")[2].split("# job.toml")
    own = re.sub(r"(?m)^bed = .*$", lambda _: bed.split("\n", 1)[1].strip(), printer_text("bench-220", tmp_path))
    (tmp_path / "own-printer.toml").write_text(own, encoding="utf-8")
    shutil.copytree(heron.parent / "parts", tmp_path / "parts")
    others = "".join(
        f'\n[[part]]\nname = "{name}"\nmesh = "parts/{name}{end}"\n'
        for name, end in (("deck", ".stl"), ("jaw", ".stl"), ("buckle", ".3mf"), ("yoke", ".stl"))
    )
    text = '[job]\nname = "x"\nprinter = "own-printer.toml"\n' + rules.split("\n", 1)[1] + others
    (tmp_path / "job.toml").write_text(text, encoding="utf-8")
    job = read_job(tmp_path / "job.toml")

    assert (job.printer.bed.shape, len(job.printer.bed.outline_mm), len(job.printer.bed.zones_mm)) == ("polygon", 5, 1)
    assert (job.part("link").count, job.part("link").printed_n) == (2, 3)
    assert job.calendar is not None
    assert (job.calendar.together, job.calendar.apart) == ((("deck", "jaw"),), (("buckle", "yoke"),))


def test_the_block_about_dates_reads_as_it_stands_and_has_every_key(heron: Path, tmp_path: Path) -> None:
    """Read by the program's own reader; what [plan] knows beside it is told elsewhere (plates) or is money."""
    block = _blocks("toml")[3]
    shutil.copytree(heron.parent / "parts", tmp_path / "parts")
    path = tmp_path / "job.toml"
    path.write_text(f'[job]\nname = "x"\n[[part]]\nname = "link"\nmesh = "parts/link.stl"\n{block}', encoding="utf-8")
    calendar = read_job(path).calendar
    path.write_text(path.read_text(encoding="utf-8") + "nonsense = 1\n", encoding="utf-8")
    with pytest.raises(JobError) as refused:
        read_job(path)
    known = set(re.findall(r"\w+", refused.value.todo.split("known here:")[1]))

    assert calendar is not None
    assert (calendar.people_n, calendar.zone, calendar.weights.per_change) == (1, "Europe/Berlin", 0.5)
    assert known - set(re.findall(r"(?m)^(\w+) = ", block)) == {"together", "apart", "currency", "energy_per_kwh"}

"""``check --do``: remedies are written into the job, and the new file is judged."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from tests.cli.running import run
from tests.remedy.devices import PART, PIN
from tests.shapes import bored_plate, cuboid, written


def _job(folder: Path) -> Path:
    """Write a plate with a bore that is too tight for its pin."""
    written(bored_plate(60, 40, 10, [(30, 20, 5.0, 96)]), folder / "a.stl")
    path = folder / "job.toml"
    path.write_text("# mine\n" + PART + PIN.format(pin_mm=5.0, bore_mm=5.0), encoding="utf-8")
    return path


def test_a_remedy_is_written_into_a_new_file_and_leaves_what_was_promised(tmp_path: Path) -> None:
    """The old file stays; the new one, in another folder, finds its meshes and is judged as foretold."""
    job, new = _job(tmp_path), tmp_path / "tried" / "new.toml"
    new.parent.mkdir()
    before = job.read_bytes()
    told: Any = json.loads(run("check", job, "--json", "-").stdout)
    after: Any = json.loads(run("check", job, "--do", "1", "-o", new, "--json", "-").stdout)

    assert job.read_bytes() == before
    assert "# mine" in new.read_text(encoding="utf-8")
    assert after["verdict"] == told["remedies"][0]["leaves_verdict"] == "go-with-work"
    assert after["remedies"] == []


def test_without_a_new_file_the_job_itself_is_written(tmp_path: Path) -> None:
    """What --scale tried is written too: the remedy was proved at that size."""
    job = _job(tmp_path)
    done = run("check", job, "--scale", "95", "--do", "1")

    assert done.returncode == 0, done.stderr
    assert "percent = 95" in job.read_text(encoding="utf-8")
    assert "[[work]]" in job.read_text(encoding="utf-8")
    assert "wrote" in done.stdout


def test_a_number_that_is_not_there_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """Exit code 2, and the numbers that there are."""
    done = run("check", _job(tmp_path), "--do", "7")

    assert done.returncode == 2
    assert "there are remedies 1 to 1" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_remedy_that_only_the_layers_tell_is_written_by_plan(tmp_path: Path) -> None:
    """Three solid layers over sparse infill: plan alone sees it, numbers its remedy, and writes it into a new job."""
    written(cuboid(40, 30, 10), tmp_path / "a.stl")
    job, new, out = tmp_path / "job.toml", tmp_path / "new.toml", tmp_path / "plan"
    job.write_text(PART + "[settings]\nsolid_top_mm = 0.2\ninfill_percent = 8.0\n", encoding="utf-8")
    told: Any = json.loads(run("plan", job, "-o", out, "--json", "-").stdout)
    (remedy,) = [one for one in told["remedies"] if one["kind"] == "settings"]
    done = run("plan", job, "-o", out, "--do", str(remedy["n"]), "--into", new)
    after: Any = json.loads((out / "plan.json").read_text(encoding="utf-8"))

    assert f"(--do {remedy['n']})" in run("plan", job, "-o", out).stdout.replace("\n", "")
    assert f"wrote{new}withremedy{remedy['n']}" in "".join(done.stdout.split())
    rules = {one["rule"] for one in remedy["settles"]}
    assert not [f for f in after["findings"] if f["rule"] in rules and f["verdict"] != "go"]


def test_remedies_of_a_plan_are_those_of_one_job(tmp_path: Path) -> None:
    """For two jobs no number means anything, and a new file without a remedy is a slip."""
    job = _job(tmp_path)
    both, slip = run("plan", job, job, "--do", "1"), run("plan", job, "--into", tmp_path / "new.toml")

    assert (both.returncode, slip.returncode) == (2, 2)
    assert "name one job alone" in both.stderr
    assert "add --do" in slip.stderr

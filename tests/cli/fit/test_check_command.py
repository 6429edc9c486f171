"""``check``: a verdict with its cause, at the job's size or at one that is tried."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from tests.cli.running import run
from tests.shapes import DATA, cuboid, written


def test_check_of_a_folder_gives_a_verdict_with_its_cause(folder: Path) -> None:
    """With nothing but meshes a verdict comes out, with guesses, in 80 columns."""
    done = run("check", folder)

    assert done.returncode in (0, 1)
    assert any(word in done.stdout for word in ("GO", "HOLD", "NO-GO"))
    assert re.search(r"m3-screw\s+\(\d+\s+%\s+sure\)", done.stdout)
    assert max(len(line) for line in done.stdout.splitlines() if str(folder) not in line) <= 80
    assert "Traceback" not in done.stderr


def test_scale_printer_and_material_can_be_tried(folder: Path) -> None:
    """A tried scale shows in the result; a larger one no longer fits the small bed."""
    small: Any = json.loads(run("check", folder, "--scale", "50", "--json", "-").stdout)
    large: Any = json.loads(run("check", folder, "--scale", "400", "--printer", "small-180", "--json", "-").stdout)

    assert small["scale_percent"] == 50.0
    assert "bed.over" in {f["rule"] for f in large["findings"] if f["verdict"] == "no-go"}


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


def test_each_measure_has_one_sentence(tmp_path: Path) -> None:
    """58 mm and 2 mm of ease on a device of 62 mm at 100 %: it needs 96.8 %, and 4 mm of room are left (by hand)."""
    written(cuboid(62, 40, 30), tmp_path / "cuff.stl")
    (tmp_path / "job.toml").write_text(
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[size]\npercent = 100.0\n[[size.measure]]\nname = "forearm"\n'
        'kind = "width"\nrecipient_mm = 58.0\ndevice_mm = 62.0\nease_mm = 2.0\n'
        '[[part]]\nname = "cuff"\nmesh = "cuff.stl"\nduty = "cover"\n',
        encoding="utf-8",
    )
    text = " ".join(run("check", tmp_path / "job.toml").stdout.split())

    assert text.count("forearm needs 96.8 %; this size leaves 4.0 mm of room to grow.") == 1
    assert text.count("forearm needs") == 1

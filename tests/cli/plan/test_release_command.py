"""``fitwright release`` and ``plan --paper`` as a person runs them."""

from __future__ import annotations

import json
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import run
from tests.output.pages import pages_of
from tests.shapes import cuboid, written

TODAY = datetime.now().astimezone().date().isoformat()
JOB = (
    '[job]\nname = "x"\nrecipient = "R-1"\nmaterial = "petg"\n[size]\npercent = 100.0\n[[size.measure]]\nname = "width"\n'
    'kind = "length"\nrecipient_mm = 60.0\ndevice_mm = 60.0\ntaken = {day}\n'
    '[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
)


@pytest.fixture(name="job")
def _job(tmp_path: Path) -> Path:
    """Return a planned job of one plate, measured today."""
    written(cuboid(60, 40, 5), tmp_path / "a.stl")
    job = tmp_path / "job.toml"
    job.write_text(JOB.format(day=TODAY), encoding="utf-8")
    assert run("plan", job, "-o", tmp_path / "plan", "--paper", "letter").returncode == 0
    return job


def test_from_not_released_to_released(job: Path) -> None:
    """1 with what is missing; 0 once it is filled in; papers keep the plan's size; a new plan keeps the record."""
    record = job.parent / "plan" / "bench" / "record.toml"
    first = run("release", job, "--json", "-")
    text = record.read_text(encoding="utf-8")
    for key, value in (("result", '"pass"'), ("lot", '"B-1"'), ("printed", '"maker"'), ("assembled", '"maker"')):
        text = text.replace(f'{key} = ""', f"{key} = {value}")
    for key in ("tested", "handed_over"):
        text = text.replace(f'{key} = ""', f'{key} = "lead"')
    record.write_text(text.replace('on = ""', f"on = {TODAY}"), encoding="utf-8")
    second = run("release", job)
    filled = record.read_text(encoding="utf-8")
    again = run("plan", job, "-o", job.parent / "plan", "--paper", "letter")
    found: Any = json.loads(first.stdout)
    pages = pages_of((job.parent / "plan" / "bench" / "papers.pdf").read_bytes())

    assert first.returncode == 1
    assert found["schema"] == "fitwright/release/1"
    assert {"trial: pieces", "role: tested", "test day", "lot: petg any"} <= {one["item"] for one in found["missing"]}
    assert (second.returncode, second.stdout.split()[0]) == (0, "RELEASED")
    assert "record.toml is filled in and was kept" in again.stdout
    assert record.read_text(encoding="utf-8") == filled
    assert pages[0].width_mm == pytest.approx(215.9, abs=0.1)


def test_a_missing_or_broken_record_is_one_sentence(job: Path, tmp_path: Path) -> None:
    """No plan, no TOML, a wrong path: exit 2, one line, what to do."""
    record = job.parent / "plan" / "bench" / "record.toml"
    record.write_text("half = [", encoding="utf-8")
    broken = run("release", job)
    record.unlink()
    gone = run("release", job, cwd=tmp_path)
    wrong = run("release", job, "--record", tmp_path / "no.toml")

    for done, told in ((broken, "not TOML"), (gone, "fitwright plan"), (wrong, "no.toml")):
        assert done.returncode == 2
        assert len(done.stderr.strip().splitlines()) == 1
        assert told in done.stderr


def test_another_s_papers_are_never_stamped(job: Path, tmp_path: Path) -> None:
    """A record of another job, named by mistake: not released, and the papers beside it stay as they were."""
    other = tmp_path / "other"
    other.mkdir()
    written(cuboid(60, 40, 5), other / "a.stl")
    (other / "job.toml").write_text(JOB.format(day=TODAY).replace('"R-1"', '"R-2"'), encoding="utf-8")
    assert run("plan", other / "job.toml", "-o", other / "plan").returncode == 0
    bench = other / "plan" / "bench"
    before = {path.name: path.read_bytes() for path in bench.iterdir()}
    done = run("release", job, "--record", bench / "record.toml")

    assert done.returncode == 1
    assert "same device" in done.stdout
    assert {path.name: path.read_bytes() for path in bench.iterdir()} == before

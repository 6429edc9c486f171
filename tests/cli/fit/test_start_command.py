"""``start``: a folder of meshes becomes a job with every guess marked."""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import Any

import pytest

from planner.job import marked_guesses, read_job
from tests.cli.running import run


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
    assert "low = 0.2, high = 0.5" in (folder / "my-printer.toml").read_text(encoding="utf-8")
    assert 'sha256 = "' in text
    assert result["scale_percent"] == pytest.approx(100 * 58 / 62)
    assert "bore.tight" in {finding["rule"] for finding in result["findings"]}
    assert run("start", folder).returncode == 2


def test_answers_go_into_the_job_with_their_origin(folder: Path) -> None:
    """A file of answers closes its questions: the job states them, says when they were given, and asks no more."""
    listed: Any = json.loads(run("start", folder, "--json", "-").stdout)
    answers = folder / "answers.toml"
    lines = [f'"{one["id"]}" = "{one["default"]}"' for one in listed["questions"]]
    answers.write_text("\n".join(lines), encoding="utf-8")
    told: Any = json.loads(run("start", folder, "--answers", answers, "--json", "-").stdout)

    assert len(listed["questions"]) >= 3
    assert told["questions"] == []
    assert told["answered"] == [one["id"] for one in listed["questions"]]
    assert "# answered 20" in (folder / "job.toml").read_text(encoding="utf-8")


def test_an_unknown_answer_leaves_everything_as_it_was(folder: Path) -> None:
    """A question that is not open, and an option that it does not have: one sentence, exit 2, no file."""
    answers = folder / "answers.toml"
    for line in ('"bores-9.9-through" = "nothing"\n', '"bores-3.4-through" = "glue"\n'):
        answers.write_text(line, encoding="utf-8")
        refused = run("start", folder, "--answers", answers)

        assert refused.returncode == 2
        assert refused.stderr.count("\n") <= 3
        assert not (folder / "job.toml").exists()


def test_every_mark_of_a_guess_is_read_back_as_one(folder: Path) -> None:
    """Each line that says GUESS has its key in its table's list, each key in a list its mark, and ``check`` lists it."""
    assert run("start", folder, "--measure", "cuff=58", "--side", "left", "--bed", "200x200x200").returncode == 0
    text = (folder / "job.toml").read_text(encoding="utf-8")
    for table in re.split(r"\n(?=\[)", text.split("# --- what the meshes cannot show")[0])[1:]:
        marked = re.findall(r"^(\w+) = .*# GUESS", table, re.MULTILINE)
        assert sorted(marked) == sorted(tomllib.loads(table.split("]", 1)[1].lstrip("]")).get("guessed", [])), table
    job = read_job(folder / "job.toml")
    told = {guess.what for guess in marked_guesses(job)}

    assert {"count of part", "duty of part", "handed of part", "mesh_unit of job", "kind of hardware"} <= told
    assert {"drawn_for of size", "padding_mm of size.measure", "device_mm of size.measure"} <= told
    assert job.printer.least_gap_mm.low < job.printer.least_gap_mm.high

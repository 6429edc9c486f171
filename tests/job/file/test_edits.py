"""Edits: what an answer or a remedy writes into a job file, and the job that comes of it."""

from __future__ import annotations

import shutil
import tomllib
from dataclasses import replace
from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import Edit, edited, read_job, with_edits

HERON = Path("sample_parts/heron/job.toml")


def test_a_put_key_changes_and_every_comment_stays() -> None:
    """An edit changes its key alone; comments, order and other tables stand as they were."""
    text = HERON.read_text(encoding="utf-8")
    after = edited(text, [Edit(table="part", name="cuff", put={"duty": "load"})], "answered")
    gone = [line for line in text.splitlines() if line not in after.splitlines()]
    assert len(gone) <= 1
    assert 'duty = "load" # answered' in after


def test_the_job_with_edits_is_the_job_of_the_edited_file(tmp_path: Path) -> None:
    """The record that ``with_edits`` returns is what the edited text reads as."""
    edits = [
        Edit(table="part", name="cuff", put={"duty": "load", "ignore_bores": True}),
        Edit(table="hardware", name="new pin", put={"kind": "dowel-pin", "diameter_mm": 3.0, "joins": ["deck", "jaw"]}),
        Edit(table="size", put={"percent": 110.0}),
    ]
    copy = shutil.copytree(HERON.parent, tmp_path / "heron") / "job.toml"
    expected = with_edits(read_job(copy), edits)
    copy.write_text(edited(HERON.read_text(encoding="utf-8"), edits), encoding="utf-8")
    assert read_job(copy) == expected
    assert expected.part("cuff").ignore_bores


def test_an_option_stays_replaced() -> None:
    """What a command-line option replaced is not read again from the file."""
    job = replace(read_job(HERON), recipient="X-1")
    after = with_edits(job, [Edit(table="part", name="cuff", put={"spares": 2})])
    assert (after.recipient, after.part("cuff").spares) == ("X-1", 2)


def test_a_dropped_table_is_gone_and_the_last_one_takes_its_heading_along() -> None:
    """A dropped entry leaves no trace; a list without entries leaves none either."""
    text = '[[strap]]\nname = "a"\n[[strap]]\nname = "b"\n'
    assert edited(text, [Edit(table="strap", name="a", drop=True)]) == '[[strap]]\nname = "b"\n'
    both = [Edit(table="strap", name=name, drop=True) for name in "ab"]
    assert edited(text, both).strip() == ""


def test_a_key_that_is_answered_no_longer_counts_as_guessed() -> None:
    """Putting a key strikes it from ``guessed``; the list goes with its last key."""
    text = '[[part]]\nname = "x"\nduty = "load"\ncount = 1\nguessed = ["duty", "count"]\n'
    once = edited(text, [Edit(table="part", name="x", put={"duty": "shell"})])
    assert 'guessed = ["count"]' in once
    assert "guessed" not in edited(once, [Edit(table="part", name="x", put={"count": 2})])


def test_an_edit_that_cannot_be_read_is_refused_in_one_sentence() -> None:
    """A wrong value is the same mistake as in a file."""
    with pytest.raises(JobError, match="duty"):
        with_edits(read_job(HERON), [Edit(table="part", name="cuff", put={"duty": "wing"})])


def test_a_list_of_tables_is_written_in_line() -> None:
    """Keys that stand behind it stay keys of their own table."""
    text = '[[hardware]]\nname = "pin"\nother_bores = []\ncount = 2\n'
    put: dict[str, list[dict[str, str | float]]] = {"other_bores": [{"part": "lever", "bore_mm": 3.4}]}
    after = tomllib.loads(edited(text, [Edit(table="hardware", name="pin", put=put)]))

    assert after["hardware"] == [{"name": "pin", "other_bores": [{"part": "lever", "bore_mm": 3.4}], "count": 2}]

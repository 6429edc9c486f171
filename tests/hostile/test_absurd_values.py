"""Every key of jobs and profiles at values that cannot be; ``python -m tests.hostile.absurd check`` judges them, too."""

from __future__ import annotations

from pathlib import Path

from planner.job import key_tables
from tests.hostile.absurd import READERS, tried
from tests.hostile.absurd_job import JOB, PROFILES, keys


def test_a_value_that_cannot_be_is_refused_in_one_sentence(tmp_path: Path) -> None:
    """No date, number, text or list under any key that ``fitwright keys`` tells ends in a traceback; a new key is here by itself."""
    found = list(tried(tmp_path, each_n=2))
    never = {"0001-01-02", "1899-12-31", "9998-12-31", "inf", "nan", "9" * 40, "1e300"}

    assert [(one.file, one.heading, one.key, one.value, one.wrong) for one in found if one.wrong] == []
    assert [(one.heading, one.key, one.value) for one in found if one.taken and one.value in never] == []
    assert {(one.file, one.heading, one.key) for one in found} == {row[:3] for row in keys()}
    assert sum(not one.taken for one in found) > 0.5 * len(found)


def test_every_table_of_a_job_is_in_the_job_that_is_made_absurd() -> None:
    """A key in a table that is missing would be refused for another reason."""
    headings = {table.heading for table in key_tables() if table.file == "job.toml"}

    assert {heading for heading in headings if heading not in JOB} == set()
    assert set(READERS) == {"job.toml", *(f"own-{name.removesuffix('-profile')}.toml" for name in PROFILES)}

"""The ways of a job's cords, by name."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.mechanism.cord.path.cord_ways import cord_ways
from tests.mechanism.cord.path.test_next_way import known_of
from tests.mechanism.cord_effects.one_jaw import two_jaws


def test_every_cord_of_a_table_has_a_name_and_what_it_drives(tmp_path: Path) -> None:
    """Two cords a table: the second drives the second copy; a table without a path has none."""
    pair = two_jaws(tmp_path)
    found = cord_ways(known_of(pair))

    assert list(found) == ["pull", "pull#2", "band", "band#2"]
    assert [found[name][0].drives for name in ("pull", "pull#2")] == ["jaw", "jaw#2"]
    pull, band = pair.job.cords
    bare = replace(known_of(pair), job=replace(pair.job, cords=(replace(pull, path=()), band)))
    assert list(cord_ways(bare)) == ["band", "band#2"]

"""Ways that change the mesh: a re-bored part is cut, measured and judged before it is shown; no part is cut in two."""

from __future__ import annotations

from pathlib import Path

from planner.finding import Verdict
from planner.job import read_job, write_edits
from planner.plan import prepare, proved_remedies
from planner.plan.changed_job import stands
from planner.remedy.group import groups_of
from planner.remedy.ways.recut_mesh import in_two, rebored_part
from planner.rules import check
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY, pinned
from tests.shapes import cuboid


def test_a_bore_too_near_the_edge_gets_a_boss_and_the_file_keeps_it(make_job: MakeJob, tmp_path: Path) -> None:
    """0.8 mm beside a bore is too little, drilled or not: re-bored with a boss round it everything passes, from the file."""
    ready = pinned(make_job, 3.0, 3.0, y_mm=(2.3, 20.0))
    found = [one for one in proved_remedies(ready).found if one.kind == "rebore"]

    (remedy,) = found
    assert (remedy.part, remedy.costs.minutes_min, remedy.leaves_verdict) == ("a", 0.0, Verdict.GO)
    assert "a boss round b1" in remedy.text
    target = write_edits(ready.job, remedy.does, "test", tmp_path / "new.toml")
    assert "rebore = true" in target.read_text(encoding="utf-8")
    after = prepare(read_job(target), TODAY)
    assert check(after.bound, 100.0).verdict is Verdict.GO


def test_what_cannot_be_re_bored_says_why(make_job: MakeJob) -> None:
    """A part that is re-bored already, and one that is scaled unevenly; a wall with no hardware in it is no case for it."""

    def why(more: str) -> str:
        stand, again = stands(prepare(make_job(PART + more, a=cuboid(40, 30, 1)), TODAY))
        (group, *_) = groups_of(stand)
        return ", ".join(candidate.why_not for candidate in rebored_part(stand, group, again))

    assert why("rebore = true\n") == "it is re-bored already"
    assert why("scale = [100, 100, 90]\n") == "it is scaled unevenly"
    assert why("count = 1\n") == ""


def test_no_part_is_cut_in_two_and_the_refusal_says_why(make_job: MakeJob) -> None:
    """A plate too long for the bed is refused as two pieces, last of all ways."""
    ready = prepare(make_job(PART + "[size]\npercent = 100.0\n", a=cuboid(600, 40, 2)), TODAY)
    stand, again = stands(ready)
    (group,) = [group for group in groups_of(stand) if group.kind.name == "bed.over"]
    ((_, refused),) = [pair for pair in proved_remedies(ready).unsettled if pair[0][0] == "bed.over"]

    assert next(iter(in_two(stand, group, again))).does == ()
    assert refused[-1].text == "print a in two pieces"
    assert "could be proved" in refused[-1].why

"""Trials: each change is judged once, as deep as it is asked."""

from __future__ import annotations

from datetime import date

from planner.job import Edit
from planner.plan import prepare
from planner.plan.changed_job import stands
from planner.remedy.candidate import Candidate
from planner.remedy.group import groups_of
from planner.remedy.remedy import Refused
from planner.remedy.rule_answers import Stand
from planner.remedy.trials import Trials, may_lie_otherwise, proved
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\n'
EDITS = (Edit(table="settings", put={"contours_n": 4}),)


def test_no_change_is_judged_twice_at_one_depth(make_job: MakeJob) -> None:
    """The same edits ask once; asked deeper, they ask again."""
    stand, again = stands(prepare(make_job(TEXT, a=cuboid(30, 20, 5)), date(2026, 12, 1)))
    asked: list[tuple[bool, bool]] = []

    def counted(*args: object, posed: bool = True, strong: bool = True, **rest: object) -> Stand:
        asked.append((posed, strong))
        return again(*args, posed=posed, strong=strong, **rest)  # type: ignore[arg-type]

    trials = Trials(stand, counted)
    for posed in (False, False, True, True):
        trials.after(EDITS, posed=posed)

    assert asked == [(False, False), (True, True)]


def test_a_change_of_material_or_pose_may_lay_parts_otherwise(make_job: MakeJob) -> None:
    """A drilled bore does not, in a device that does not move."""
    stand, again = stands(prepare(make_job(TEXT, a=cuboid(30, 20, 5)), date(2026, 12, 1)))
    trials = Trials(stand, again)

    assert may_lie_otherwise(trials, "material")
    assert not may_lie_otherwise(trials, "drill")


def test_what_fails_by_its_own_finding_is_refused_before_any_answer_is_asked(make_job: MakeJob) -> None:
    """A plate of 1.0 mm that carries needs three lines: lines of 0.40 mm leave it too thin, whatever is answered."""
    text = TEXT.replace("cover", "load").replace('name = "a"', 'name = "a"\nignore_bores = true')
    stand, again = stands(prepare(make_job(text, a=cuboid(40, 30, 1.0)), date(2026, 12, 1)))
    depths: list[bool] = []

    def counted(*args: object, asked: bool = True, **rest: object) -> Stand:
        depths.append(asked)
        return again(*args, asked=asked, **rest)  # type: ignore[arg-type]

    (group,) = [one for one in groups_of(stand) if one.kind.name == "wall.thin"]
    narrow = Candidate(kind="settings", text="narrower", does=(Edit(table="settings", put={"line_width_mm": 0.4}),))
    found = proved(Trials(stand, counted), group, narrow)

    assert isinstance(found, Refused)
    assert "1.20 mm" in found.why
    assert depths == [False]

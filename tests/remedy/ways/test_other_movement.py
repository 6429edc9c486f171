"""What helps a hinge that is stopped too soon: the range that it has, asked for from the job file and judged again."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.finding import Finding, Verdict
from planner.job import Edit, read_job, with_edits, write_edits
from planner.plan import changed_job, prepare, proved_remedies
from planner.plan.changed_job import stands
from planner.rules import check, constants
from tests.mechanism.hinge_job import JOINT, STOP_DEG, hinge
from tests.remedy.devices import TODAY


def test_a_hinge_that_stops_too_soon_is_asked_for_what_it_reaches(tmp_path: Path) -> None:
    """No size moves a stop of two printed parts; its stop is at 10.14 degrees by hand, so 10 is what may be asked."""
    ready = prepare(read_job(hinge(tmp_path, JOINT.format(low=-20, high=14))), TODAY)
    (stopped,) = [f for f in check(ready.bound, 100.0).findings if f.verdict is Verdict.NO_GO]
    remedies = proved_remedies(ready)
    remedy = remedies.for_finding(stopped)
    assert remedy is not None
    after = prepare(read_job(write_edits(ready.job, remedy.does, "", tmp_path / "new.toml")), TODAY)

    assert 10.0 < STOP_DEG < 10.5
    assert (remedy.kind, remedy.text) == ("needs", "let base to arm need only -20 to 10°, if that is enough")
    assert [one.kind for one in remedy.refused] == ["size"]
    assert all(rule.at(1.0).verdict.passes for rule in after.moves)


def test_movement_is_judged_again_where_hardware_changes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another pin may end a range or turn harder: a changed job has the rules of its own movement, no setting asks."""
    ready = prepare(read_job(hinge(tmp_path)), TODAY)
    hold = Finding(rule="move.range", part="arm", feature="x", verdict=Verdict.HOLD, why="new", source="test")
    monkeypatch.setattr(changed_job, "moves_of", lambda *_: (None, constants([hold])))
    _, again = stands(ready)
    thicker = with_edits(ready.job, [Edit(table="hardware", name="pin", put={"diameter_mm": 5.2})])
    cooler = with_edits(ready.job, [Edit(table="settings", put={"nozzle_c": 230.0})])

    assert again(thicker).worst_of(("move.range", "arm", "x")) is not None
    assert again(thicker, posed=False).worst_of(("move.range", "arm", "x")) is None
    assert again(cooler).worst_of(("move.range", "arm", "x")) is None

"""Rules of movement are bound to what is asked for; what cannot be told is a hold, never left out."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from manifold3d import Manifold

from planner.finding import Verdict
from planner.job import read_job
from planner.mechanism import unmoved_rules
from planner.plan import movement, prepare, prepare_moves
from tests.mechanism.hinge_job import JOINT, STOP_DEG, hinge
from tests.shapes import solid_of, written

CORD = '[[cord]]\nname = "pull"\npart = "base"\ndiameter_mm = 1.0\ndrives = "arm"\nfrom = "wrist"\n'
NEEDS = JOINT.format(low=-20, high=10)


def _bound(tmp_path: Path, more: str):  # type: ignore[no-untyped-def]
    ready = prepare(read_job(hinge(tmp_path, more)), date(2026, 11, 29))
    return ready, {rule.rule: rule for rule in movement(ready)[1]}


def test_parts_that_grow_alike_stop_at_the_same_angle_at_every_size(tmp_path: Path) -> None:
    """The stop of two printed parts does not hang on the size, so the rule has no turns."""
    ready, rules = _bound(tmp_path, NEEDS)
    assert ready.movement is not None
    for s in (0.5, 1.0, 2.2):
        assert ready.movement.range_at("base to arm", s).free_deg[1] == pytest.approx(STOP_DEG, abs=0.1)
    assert rules["move.range"].turns() == ()


def test_a_cord_that_drives_without_a_path_is_a_hold(tmp_path: Path) -> None:
    """It is said to move the arm, and nobody said how it runs."""
    _, rules = _bound(tmp_path, NEEDS + CORD)
    found = rules["move.travel"].at(1.0)
    assert found.verdict is Verdict.HOLD
    assert "write its path" in found.why


def test_a_path_that_cannot_be_followed_is_a_hold_with_the_nearest_name(tmp_path: Path) -> None:
    """``arm:hok`` is no point of the arm."""
    point = '[[point]]\npart = "arm"\nname = "hook"\nat_mm = [10.0, 6.0, 9.0]\n'
    path = 'path = ["base:[-20.0, 6.0, 9.0]", "arm:hok"]\n'
    _, rules = _bound(tmp_path, NEEDS + CORD + path + point)
    assert "hook" in rules["move.travel"].at(1.0).why


def test_a_joint_that_nobody_speaks_of_is_asked_about_only_by_move(tmp_path: Path) -> None:
    """The hinge turns, and no need is stated: check stays silent, move tells its range and asks."""
    ready, rules = _bound(tmp_path, "")
    assert ready.moves == ()
    found = rules["move.range"].at(1.0)
    assert found.verdict is Verdict.GO
    assert found.question


@pytest.mark.parametrize("needs", ["", "needs_deg = [-10, 10]\n"])
def test_a_slide_that_nothing_stops_passes_with_a_caution(tmp_path: Path, needs: str) -> None:
    """A slider on a T-shaped rail that is open at both ends goes without end: it can run off there, whatever is asked."""
    rail = Manifold.cube((60.0, 6.0, 8.0)).translate((0.0, -3.0, 0.0))
    rail += Manifold.cube((60.0, 12.0, 3.0)).translate((0.0, -6.0, 6.0))
    grown = Manifold.cube((22.0, 6.8, 9.0)).translate((19.0, -3.4, -1.0))
    grown += Manifold.cube((22.0, 12.8, 3.8)).translate((19.0, -6.4, 5.6))
    slider = Manifold.cube((20.0, 18.8, 11.4)).translate((20.0, -9.4, 1.0)) - grown
    written(solid_of(rail), tmp_path / "rail.stl")
    written(solid_of(slider), tmp_path / "slider.stl")
    joint = '[[joint]]\nbetween = ["rail", "slider"]\nhow = "slides"\n'
    parts = "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in ("rail", "slider"))
    job = tmp_path / "job.toml"
    job.write_text(f'[job]\nname = "rail"\nmaterial = "petg"\n[size]\npercent = 100\n{parts}{joint}{needs}')
    found = next(rule for rule in prepare_moves(read_job(job), date(2026, 11, 29)).rules).at(1.0)

    assert found.verdict is Verdict.GO
    assert "run off" in found.caution
    assert bool(found.question) is not bool(needs)


def test_a_driving_cord_where_nothing_moves_is_a_hold(tmp_path: Path) -> None:
    """No two parts share an axis, so nobody can tell its pull."""
    job = read_job(hinge(tmp_path, CORD))
    assert [rule.at(1.0).verdict for rule in unmoved_rules(job)] == [Verdict.HOLD]

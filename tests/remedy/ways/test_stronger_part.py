"""What helps a part that its load breaks: applied, judged again, and refused with its MPa where it does not do."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Verdict
from planner.plan import prepare, proved_remedies
from planner.plan.changed_job import stands
from planner.remedy.group import Group, groups_of
from planner.remedy.rule_answers import Stand
from planner.remedy.ways.stronger_part import laid_stronger, metal_pin, more_solid, refused_material
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cylinder, solid_of

LEVER = """
[job]
name = "lever"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
[size]
percent = 100.0
[use]
load_n = {load_n}
[[part]]
name = "lever"
mesh = "lever.stl"
duty = "load"
load_at_mm = [78.0, 8.0, 16.0]
load_dir = [0.0, 0.0, -1.0]
pose = {pose}
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 5.0
bore_mm = 5.4
fit = "turning"
joins = ["lever"]
"""
PIN = """
[job]
name = "pin"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
[size]
percent = 100.0
[use]
load_n = 100.0
[[part]]
name = "peg"
mesh = "peg.stl"
duty = "pin"
[[part]]
name = "block"
mesh = "block.stl"
duty = "cover"
[[hardware]]
name = "peg"
kind = "dowel-pin"
printed = "peg"
diameter_mm = 6.0
bore_mm = 6.4
fit = "sliding"
joins = ["block"]
"""


def _broken(
    make_job: MakeJob, load_n: float, pose: str, *bores: tuple[float, float, float, int]
) -> tuple[Stand, Group]:
    """Return how a lever of 80 by 16 by 16 stands, whose load is known, and its finding about strength."""
    lever = bored_plate(80, 16, 16, [(6, 8, 5.4, 64), *bores])
    stand, _ = stands(prepare(make_job(LEVER.format(load_n=load_n, pose=pose), lever=lever), date(2026, 12, 1)))
    (group,) = [one for one in groups_of(stand) if one.kind.gives == "strength"]
    return stand, group


def test_the_fewest_contours_that_do_are_taken_and_fewer_are_refused_with_their_mpa(make_job: MakeJob) -> None:
    """Go by its cuts and a hold by its bore: each step is judged by all that the rule asks, and the first that is go.

    What it costs is told in grams and minutes.
    """
    stand, group = _broken(make_job, 74.0, '"auto"', (30, 8, 4.0, 48))
    *refused, last = more_solid(stand, group)

    assert group.findings[0].measured is not None
    assert group.findings[0].measured < 50.0
    assert len(refused) == 1
    assert "what cuts do not see" in refused[0].why_not
    assert "MPa" in refused[0].why_not
    assert last.why_not == ""
    assert int(str(last.does[0].put["contours_n"])) > stand.job.settings.contours_n + 1
    assert last.costs.money is not None
    assert last.costs.money > 0.0
    assert "for the whole device" in last.text
    assert "MPa" in refused_material(stand, group, stand.job)


def test_what_is_solid_already_gets_no_stronger(make_job: MakeJob) -> None:
    """By hand: 400 N at 72 mm on (16 - 5.4) 16² / 6 is 64 MPa in a solid bar: over half of 40 MPa however it is filled."""
    stand, group = _broken(make_job, 400.0, '"auto"')
    (refused,) = more_solid(stand, group)

    assert float(refused.why_not.split(" MPa")[0].split()[-1].lstrip("(")) == pytest.approx(64.0, rel=0.05)


def test_the_pose_with_the_least_torn_layers_comes_first_and_a_stated_one_binds(make_job: MakeJob) -> None:
    """Standing on end a bar is pulled across its layers: 25 instead of 40 MPa, so flat it takes 25 / 40 as much."""
    stand, group = _broken(make_job, 110.0, "[-1.0, 0.0, 0.0]")
    first = next(laid_stronger(stand, group))
    (finding,) = group.findings

    assert first.why_not.startswith("the job states its pose")
    assert abs(first.does[0].put["pose"][0]) < 0.01  # type: ignore[index, arg-type]
    assert "it would take 62 % as much" in finding.why
    assert finding.verdict is not Verdict.GO


def test_a_printed_pin_that_breaks_is_taken_of_steel(make_job: MakeJob) -> None:
    """By hand: 100 N in the middle of 0.9 x 40 mm, 900 N mm over pi 6³ / 32: 42 MPa if it were solid; steel has 300."""
    block = bored_plate(20, 20, 34, [(10, 10, 6.4, 64)])
    ready = prepare(make_job(PIN, peg=solid_of(cylinder(6.0, 40.0, 64)), block=block), date(2026, 12, 1))
    stand, _ = stands(ready)
    (group,) = [one for one in groups_of(stand) if one.kind.gives == "strength"]
    (pin,) = metal_pin(stand, group)

    assert group.findings[0].verdict is Verdict.NO_GO
    assert pin.why_not == ""
    assert 42.0 < float(pin.text.split("(")[1].split()[0]) < 60.0
    assert any(
        remedy.kind == "hardware" and remedy.does == pin.does and remedy.leaves_verdict.passes
        for remedy in proved_remedies(ready).found
    )

"""A pose that is asked for alone is the one that the whole plan chooses."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from planner.plan import Prepared, prepare
from planner.plan.parts import downs_on_demand
from planner.plan.parts.downs_on_demand import DownsOnDemand
from planner.scale import Scale
from planner.survey import survey
from tests.conftest import MakeJob
from tests.plan.parts.test_posed_parts import JOB
from tests.shapes import bored_plate


def _asked_alone(ready: Prepared) -> DownsOnDemand:
    """Return the downs of a prepared job, none of them known yet."""
    known: dict[str, Any] = {"job": ready.job, "solids": ready.solids, "surveys": ready.surveys}
    return DownsOnDemand(**known, factor=Scale(ready.sizing.percent).factor, movements=[ready.movement])


def test_of_a_device_that_moves_each_part_lies_as_in_its_plan(heron_ready: Prepared) -> None:
    """Loads that are known decide, as they do in the plan; parts are asked for one after the other."""
    assert dict(_asked_alone(heron_ready)) == heron_ready.downs


@pytest.mark.parametrize("load_n", [6.0, 600.0])
def test_a_post_lies_as_in_its_plan_under_any_load(make_job: MakeJob, load_n: float) -> None:
    """Its load may lay it another way, and did in the plan."""
    post = bored_plate(24, 24, 60, [(12, 12, 8.4, 64)])
    ready = prepare(make_job(JOB.format(load_n=load_n), post=post), date(2026, 12, 1))

    assert dict(_asked_alone(ready)) == ready.downs


@pytest.mark.parametrize(("load_n", "parts"), [(6.0, []), (600.0, ["post"])])
def test_all_cuts_are_judged_only_where_a_load_might_lay_a_part_another_way(
    make_job: MakeJob, monkeypatch: pytest.MonkeyPatch, load_n: float, parts: list[str]
) -> None:
    """Under a load that costs less, in minutes, than stands between the two best poses, a first look tells enough."""
    asked: list[str] = []
    monkeypatch.setattr(downs_on_demand, "screened", lambda *known: asked.extend(known[-1]) or ())  # type: ignore[func-returns-value]
    post = bored_plate(24, 24, 60, [(12, 12, 8.4, 64)])
    job = make_job(JOB.format(load_n=load_n), post=post)

    dict(DownsOnDemand(job=job, solids={"post": post}, surveys={"post": survey(post)}, factor=1.0))

    assert asked == parts


def test_what_is_no_part_has_no_pose(heron_ready: Prepared) -> None:
    """A job's hardware is asked for as a part's name now and then."""
    assert _asked_alone(heron_ready).get("no such part") is None

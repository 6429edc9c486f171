"""Spools by id: what each feeds and what that leaves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.job import Spool
from planner.output.chapter_page.reels import reels_json
from planner.plan import Plan
from planner.schedule import Reel
from planner.schedule.calendar.spool_records import Feed


def test_a_spool_loses_what_its_plates_take(plan: Plan) -> None:
    """By hand: left less the grams of the plates it feeds alone; not told where a plate takes from two."""
    spools = tuple(Spool(material="petg", colour="any", left_g=600.0, id=name) for name in ("S-1", "S-2"))
    one, two = (Reel(name=name, colour="any", left_g=600.0) for name in ("S-1", "S-2"))
    alone = Feed(plate=1, reels=(one,), ends_min=(), short_g=0.0, unattended=False)
    assert plan.clocks is not None
    first = plan.plates[0]
    assert first.mass_g is not None

    def fed(*feeds: Feed) -> dict[str, dict[str, object]]:
        assert plan.clocks is not None
        job = replace(plan.job, spools=spools)
        stage = replace(plan.stage, job=job, clocks=replace(plan.clocks, feeds=feeds))
        return {row["spool"]: row for row in reels_json({"a": replace(plan, stage=stage)}, {"a": {1: "R-07.1"}})}

    rows = fed(alone)
    assert rows["S-1"]["after_g"] == pytest.approx(600.0 - first.mass_g.value)
    assert (rows["S-1"]["plates"], rows["S-2"]["plates"], rows["S-2"]["after_g"]) == (["R-07.1"], [], 600.0)
    assert fed(replace(alone, reels=(one, two), ends_min=(30.0,)))["S-2"]["after_g"] is None

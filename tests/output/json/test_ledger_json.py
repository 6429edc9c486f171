"""The ledger of a chapter: printers, spools and print logs."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.job import Spool
from planner.output import chapter_json
from planner.plan import Plan
from tests.plan.jobs import changed


def test_a_spool_that_feeds_each_job_alone_holds_the_chapter_that_it_does_not_feed(plan: Plan, tmp_path: Path) -> None:
    """By hand: both need 1.15 times their grams of one spool that both list; their printer runs both; logs are counted."""
    assert plan.totals.mass_g is not None
    grams = plan.totals.mass_g.value
    log = "plate,planned_h,real_h,outcome,cause,failed_at_h\na,4,5,done,,\nb,4,,failed,loose,2\n"
    plans = {}
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        spool = Spool(material=plan.material.name, colour="any", left_g=1.5 * grams)
        job = replace(plan.job, path=tmp_path / name / "job.toml", spools=(spool,))
        plans[name] = changed(plan, job=job)
    (tmp_path / "a" / "print-log.csv").write_text(log, encoding="utf-8")
    alone: Any = chapter_json({"a": plans["a"]})
    both: Any = chapter_json(plans)

    assert alone["verdict"] == plan.verdict.value
    assert not any(row["short_g"] for row in alone["spools"])
    assert both["verdict"] == "hold"
    assert sum(row["need_g"] for row in both["spools"]) == pytest.approx(2 * grams)
    assert max(row["short_g"] for row in both["spools"]) > 0
    assert sum(row["plates"] for row in both["printers"]) == 2 * len(plan.plates)
    assert [(row["plates"], row["failed"], row["hours"]) for row in both["prints"]] == [(2, 1, 7.0)]


def test_whether_two_jobs_list_one_spool_or_two_is_asked_where_it_decides(plan: Plan) -> None:
    """By hand: two spools of 1.5 needs feed two jobs, one does not: a hold with the question; with ids it goes, or is a plain hold."""
    assert plan.totals.mass_g is not None
    grams = plan.totals.mass_g.value

    def spools(name_a: str, name_b: str) -> Any:
        plans = {}
        for job_name, name in (("a", name_a), ("b", name_b)):
            spool = Spool(material=plan.material.name, colour="any", left_g=1.5 * grams, id=name)
            plans[job_name] = changed(plan, job=replace(plan.job, spools=(spool,)))
        told: Any = chapter_json(plans)
        return [any(row[key] for row in told["spools"]) for key in ("short_g", "question")]

    assert spools("", "") == [True, True]
    assert spools("s-1", "s-2") == [False, False]
    assert spools("s-1", "s-1") == [True, False]

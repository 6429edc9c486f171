"""Kinds of device of random chapters: small ones that are measured and laid out once."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

from planner.job import read_job
from planner.plan import Plan, make_plan, prepare
from tests.shapes import bored_plate, cuboid, written

MONDAY = datetime(2026, 11, 30, 8)
KINDS = (
    {"base": (1, (110, 70, 12)), "block": (3, (70, 50, 24)), "cap": (4, (30, 30, 10))},
    {"bar": (2, (150, 30, 14)), "knob": (2, (60, 60, 30)), "clip": (5, (25, 20, 8)), "lid": (1, (170, 165, 5))},
)
HEAD = """
[job]
name = "kind"
recipient = "R-0"
material = "petg"
mesh_unit = "mm"
[size]
percent = 100.0
[plan]
start = 2026-11-30T08:00:00
coupon = "never"
"""


def kinds(folder: Path) -> list[Plan]:
    """Return a plan of every kind of device."""
    plans = []
    for number, parts in enumerate(KINDS):
        home = folder / f"kind{number}"
        home.mkdir(parents=True)
        rows = list[str]()
        for name, (n, size) in parts.items():
            solid = bored_plate(*size, []) if name == "base" else cuboid(*size)
            written(solid, home / f"{name}.stl")
            rows.insert(0, f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\ncount = {n}\nduty = "cover"\n')
        apart = f"apart = [{json.dumps(list(parts))}]\n"
        (home / "job.toml").write_text("".join((HEAD, apart, *rows)), encoding="utf-8")
        plans.append(make_plan(prepare(read_job(home / "job.toml"), MONDAY.date())))
    return plans


def with_job(plan: Plan, job: Any) -> Plan:
    """Return a plan of the same device for another job: it is measured, laid out and asked what widens it once."""
    sized = plan.stage.sized
    known, sized = sized.ready, replace(sized, ready=replace(sized.ready, job=job))
    sized.ready._once.update(known._once)  # no checker looks at what hangs on it
    return replace(plan, stage=replace(plan.stage, job=job, laid=replace(plan.stage.laid, sized=sized)))

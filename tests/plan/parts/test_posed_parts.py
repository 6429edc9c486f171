"""A lever is not pulled across its layers where another pose spares them."""

from __future__ import annotations

from datetime import date

from planner.plan import prepare
from tests.conftest import MakeJob
from tests.shapes import bored_plate

JOB = """
[job]
name = "post"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
[size]
percent = 100.0
[use]
load_n = {load_n}
[[part]]
name = "post"
mesh = "post.stl"
duty = "load"
load_at_mm = [12.0, 12.0, 58.0]
load_dir = [0.0, 1.0, 0.0]
[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 8.0
bore_mm = 8.4
fit = "turning"
joins = ["post"]
"""


def test_a_reason_is_told_in_mpa(make_job: MakeJob) -> None:
    """A post of 24 by 24 by 60: its own load's term stands last, for its pose and for the next best one."""
    post = bored_plate(24, 24, 60, [(12, 12, 8.4, 64)])
    ready = prepare(make_job(JOB.format(load_n=60.0), post=post), date(2026, 12, 1))
    choice = ready.poses["post"]

    assert choice.terms[-1].told.endswith("MPa that break it laid so")
    assert choice.runner_up_terms[-1].for_it == "its load tears its layers least"

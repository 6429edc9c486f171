"""Contours for duty and wall; what carries a top over infill."""

from __future__ import annotations

from typing import Any

import pytest

from planner.finding import Evidence, Verdict
from planner.job import Job
from tests.conftest import MakeJob
from tests.rules.asked import asked
from tests.rules.settings.conftest import TEXT
from tests.shapes import cuboid

GO, WORK = Verdict.GO, Verdict.GO_WITH_WORK
BLOCK, RIB = cuboid(40, 30, 10), cuboid(60, 1.8, 20)


@pytest.mark.parametrize(
    ("duty", "contours_n", "rule", "verdict"),
    [
        ("load", 2, "contours.load", WORK),
        ("load", 3, "contours.load", GO),
        ("pin", 2, "contours.load", WORK),
        ("shell", 1, "contours.shell", WORK),
        ("shell", 2, "contours.shell", GO),
        ("cover", 1, "contours.shell", WORK),
        ("soft", 2, "contours.shell", GO),
    ],
)
def test_contours_go_with_the_duty(make_job: MakeJob, duty: str, contours_n: int, rule: str, verdict: Verdict) -> None:
    """Three where a part carries, two elsewhere, on a block with room for them."""
    job = make_job(TEXT.replace('"load"', f'"{duty}"'), a=BLOCK)
    (found,) = asked(job, rule, solid=BLOCK, contours_n=contours_n)

    assert found.verdict is verdict


def test_a_wall_that_is_full_has_no_room_for_more(make_job: MakeJob) -> None:
    """Two contours lay four lines of 0.45 mm, 1.67 mm wide, in a rib of 1.8 mm; one lays two and leaves room."""
    job = make_job(TEXT, a=RIB)

    assert asked(job, "contours.load", solid=RIB, contours_n=2)[0].verdict is GO
    assert asked(job, "contours.load", solid=RIB, contours_n=1)[0].verdict is WORK


@pytest.mark.parametrize("stated", ["", 'duty = "shell"\nguessed = ["duty"]\n'])
def test_a_guessed_duty_is_told_with_if(make_job: MakeJob, stated: str) -> None:
    """Nobody stated what the block does: two contours are work if it carries; one is too few for anything."""
    job = make_job(TEXT.replace('duty = "load"\n', stated), a=BLOCK)
    two, one = (asked(job, "contours.load", solid=BLOCK, contours_n=n)[0] for n in (2, 1))

    assert two.remedy.startswith("if ")
    assert (two.verdict, two.evidence) == (WORK, Evidence.GUESSED)
    assert not one.remedy.startswith("if ")
    assert asked(job, "contours.load", solid=BLOCK)[0].verdict is GO


@pytest.mark.parametrize(("infill_percent", "top_mm", "verdict"), [(10.0, 0.4, WORK), (10.0, 0.6, GO), (20.0, 0.6, GO)])
def test_a_top_carries_over_the_lines_below(block: Job, infill_percent: float, top_mm: float, verdict: Verdict) -> None:
    """(0.45 - 0.2 x 0.2146) / 10 % = 4.07 mm apart, a seventh of it 0.57 mm; at 20 % half of both."""
    (found,) = asked(block, "solid.span", solid=BLOCK, infill_percent=infill_percent, solid_top_mm=top_mm)

    assert found.verdict is verdict
    assert found.limit == pytest.approx(0.14 * 40.708 / infill_percent, abs=1e-3)


@pytest.mark.parametrize(
    ("infill_percent", "verdict", "word"),
    [(0.0, WORK, False), (5.0, WORK, False), (5.2, GO, True), (10.0, GO, False), (60.0, GO, False), (90.0, GO, True)],
)
def test_infill_carries_a_top_and_costs_no_more_than_it_helps(
    block: Job, infill_percent: float, verdict: Verdict, word: bool
) -> None:
    """Lines 8 mm apart at 5.09 %: less leaves the top to nothing; 10 to 60 % is usual."""
    (found,) = asked(block, "infill.share", solid=BLOCK, infill_percent=infill_percent)

    assert (found.verdict, bool(found.caution)) == (verdict, word)


def test_three_solid_layers_close_sparse_infill(block: Job) -> None:
    """0.5 mm are three layers of 0.2, 0.4 mm two; over half-full infill two do."""
    tried: list[dict[str, Any]] = [
        {"solid_top_mm": 0.5},
        {"solid_top_mm": 0.4},
        {"solid_top_mm": 0.4, "infill_percent": 50.0},
    ]
    found = [asked(block, "solid.layers", **changes) for changes in tried]
    top = [next(f.verdict for f in one if f.feature == "solid top") for one in found]

    assert top == [GO, WORK, GO]


def test_many_contours_are_a_word(block: Job) -> None:
    """Six without one, twelve with one, and neither stops."""
    assert not asked(block, "contours.most", contours_n=6)[0].caution
    twelve = asked(block, "contours.most", contours_n=12)[0]
    assert (twelve.verdict, bool(twelve.caution)) == (GO, True)

"""Neighbourhoods: a calendar of several jobs gets better, or stays; it is proved after every round."""

from __future__ import annotations

import pytest

from planner.schedule import Judge, by_key, proved
from planner.schedule.solver.dispatch import Dispatch, in_order
from planner.schedule.solver.minute_model import Aim
from planner.schedule.solver.neighbourhoods import improved
from tests.schedule.test_several_jobs import _case


@pytest.mark.parametrize("aim", ["late", "finish", "ready"])
def test_what_is_improved_is_no_worse_and_holds(aim: Aim) -> None:
    """Eighteen plates, dispatched longest first without a thought for due dates: days late, the end and devices."""
    tasks, shop, terms = _case(4)
    judge, known = Judge(terms, shop), by_key(tasks)
    first = Dispatch(judge).placed(in_order(tasks))
    better = improved(tasks, judge, first, aim, 4, 20)

    assert proved(better, tasks, shop, terms) == ()
    assert judge.score(better, known) <= judge.score(first, known)
    assert aim != "late" or judge.score(better, known)[0] < judge.score(first, known)[0]
    assert better == improved(tasks, judge, first, aim, 4, 20)

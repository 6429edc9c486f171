"""What a chapter must buy: needs less what was bought, the day it is needed, the day to order it."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from planner.plan import Leads, Plan, buy_list, late_by_lead
from planner.plan.chapter.buy_list import items_of, needed_on


def test_needs_less_what_was_bought_are_to_be_bought_by_the_first_device_that_misses_them(heron_plan: Plan) -> None:
    """Of one item bought for one of two devices the other's is missing; by hand: need 2 n, have n, buy n."""
    plans = {"a": heron_plan, "b": heron_plan}
    (item, unit), n = next(iter(items_of(heron_plan).items()))
    rows = {row.item: row for row in buy_list(plans, {item: n}, Leads(), date(2026, 12, 1))}

    assert unit == "pcs"
    assert (rows[item].need_n, rows[item].have_n, rows[item].buy_n, rows[item].jobs) == (2 * n, n, n, ("b",))
    assert rows[item].by == needed_on(heron_plan)
    assert (rows[item].order_by, rows[item].slack_days) == (None, None)  # nobody says how long a delivery takes
    assert not {
        row.item
        for row in buy_list(
            plans, {name: 2 * n for (name, _), n in items_of(heron_plan).items()}, Leads(), date(2026, 12, 1)
        )
    }


def test_an_order_has_its_last_day_and_a_device_that_it_makes_late_says_so(heron_plan: Plan) -> None:
    """Ten days of delivery end on the day of need: ordered ten days before it has no slack, a year later it is late."""
    day, deadline = needed_on(heron_plan), heron_plan.job.calendar.deadline if heron_plan.job.calendar else None
    if day is None:
        pytest.fail("the Heron has a calendar")
    (item, _), _n = next(iter(items_of(heron_plan).items()))
    leads = Leads(days=3.0, of_item={item: 10.0})
    ten_before = day - timedelta(days=10)
    row = next(row for row in buy_list({"a": heron_plan}, {}, leads, ten_before) if row.item == item)

    assert (row.order_by, row.slack_days) == (ten_before, 0)
    assert late_by_lead({"a": heron_plan}, (row,), ten_before) == {}
    after = day + timedelta(days=365)
    late = late_by_lead({"a": heron_plan}, buy_list({"a": heron_plan}, {}, leads, after), after)
    assert bool(late) is (deadline is not None)
    if deadline is not None and heron_plan.clocks and heron_plan.clocks.ready:
        waits = 375
        assert late["a"][0] == (heron_plan.clocks.ready.date() - deadline).days + waits

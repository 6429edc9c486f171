"""What a chapter still costs."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from planner.plan import Plan, Shared, chapter_money
from planner.plan.chapter.money import delivered_cost

STATED = Shared(rates={"labour_per_h": 12.0, "wear_per_h": 0.5, "post_each": 4.9, "reserve_percent": 10.0})


def test_labour_wear_post_and_a_reserve_count_and_what_is_not_stated_is_told(plans: Mapping[str, Plan]) -> None:
    """By hand for one device: material, energy and parts, 12 an hour of hands, 0.5 an hour of printing, 4.90, and 10 %."""
    name, plan = next(iter(plans.items()))
    found = chapter_money({name: plan}, STATED)
    assert plan.cost is not None
    assert plan.clocks is not None
    assert plan.totals.duration_s is not None
    labour = 12.0 * plan.clocks.hands_min / 60.0
    wear = 0.5 * plan.totals.duration_s.value / 3600.0 / (1.0 - plan.cost.scrap_share)

    bare = plan.cost.delivered.value + labour + wear + 4.9
    assert found.total.value == pytest.approx(1.1 * bare)
    assert (found.delivered, found.devices_n, found.missing) == (found.total, 1, ())
    assert found.device is not None
    assert found.device.value == pytest.approx(plan.cost.device.value + labour + wear)
    assert found.total.low <= found.total.value <= found.total.high

    bare_all = chapter_money(plans, Shared())
    assert bare_all.total.value == pytest.approx(sum(p.cost.delivered.value for p in plans.values() if p.cost))
    assert [told.split(":")[0] for told in bare_all.missing] == ["labour", "wear of printers", "post", "reserve"]
    assert delivered_cost(plan, Shared()) == pytest.approx(plan.cost.delivered.value)


def test_another_currency_is_not_added_and_a_built_device_costs_no_more(plans: Mapping[str, Plan]) -> None:
    """Devices in euro, counted in pounds: none is counted, each is told. Nothing is left for one that is built."""
    pounds = chapter_money(plans, Shared(currency="GBP"))
    assert (pounds.devices_n, pounds.total.value, pounds.device) == (0, 0.0, None)
    assert sum("counts in EUR" in told for told in pounds.missing) == len(plans)
    codes = {plan.job.recipient for plan in plans.values()} - {""}
    left = sum(plan.job.recipient not in codes for plan in plans.values())
    assert chapter_money(plans, Shared(), codes).devices_n == left

"""Lines to buy as JSON: the contract's item, n and by, and what they come from."""

from __future__ import annotations

from datetime import date

from planner.output.chapter_page.purchases import purchase_json
from planner.plan import Plan, Purchase


def test_a_line_says_for_whom_it_is_bought(plan: Plan) -> None:
    """Days are ISO dates, jobs are recipients' codes."""
    row = Purchase(
        item="nut M3", unit="pcs", need_n=8.0, have_n=2.0, buy_n=6.0, by=date(2026, 12, 9),
        order_by=date(2026, 12, 2), slack_days=1, jobs=("a",),
    )  # fmt: skip

    assert purchase_json(row, {"a": plan}) == {
        "item": "nut M3", "n": 6.0, "unit": "pcs", "by": "2026-12-09", "order_by": "2026-12-02", "slack_days": 1,
        "need_n": 8.0, "have_n": 2.0, "jobs": [plan.job.recipient],
    }  # fmt: skip

"""What a chapter must buy, line by line, as plain JSON types."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planner.output.chapter_page.waiting import called
from planner.plan import Plan, Purchase


def purchase_json(row: Purchase, plans: Mapping[str, Plan]) -> dict[str, Any]:
    """Return one line of what is to be bought."""
    return {
        "item": row.item,
        "n": row.buy_n,
        "unit": row.unit,
        "by": row.by.isoformat() if row.by else None,
        "order_by": row.order_by.isoformat() if row.order_by else None,
        "slack_days": row.slack_days,
        "need_n": row.need_n,
        "have_n": row.have_n,
        "jobs": [called(folder, plans) for folder in row.jobs],
    }

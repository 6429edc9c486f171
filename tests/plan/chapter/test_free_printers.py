"""When a printer is free again after what was scheduled on it before."""

from __future__ import annotations

from datetime import datetime

from planner.plan.chapter.free_printers import Free, in_zone


def test_a_moment_keeps_its_instant_in_another_zone() -> None:
    """By the IANA zones: noon in Berlin in July is six in the morning in New York; unstated zones are one place."""
    noon = datetime(2026, 7, 1, 12)

    assert in_zone(noon, "Europe/Berlin", "America/New_York") == datetime(2026, 7, 1, 6)
    assert in_zone(noon, "", "America/New_York") == in_zone(noon, "Europe/Berlin", "") == noon
    assert Free(at={"bench": (noon, "Europe/Berlin")}).with_coupons((), "America/New_York") == {
        "bench": datetime(2026, 7, 1, 6)
    }

"""The chart of sizes: one scale for all rows, with the job's own size on it."""

from __future__ import annotations

from planner.output.drawing.window_chart import window_chart
from planner.plan import Plan


def test_every_row_lies_on_one_scale(plan: Plan) -> None:
    """The whole device first, then each part; bars stay on the chart, and the job's size lies between its ends."""
    chart = window_chart(plan.window, plan.part_windows, plan.scale_percent)

    assert [row.name for row in chart.rows] == ["the whole device", *(part.part for part in plan.part_windows)]
    assert chart.low_percent < plan.scale_percent < chart.high_percent
    assert 0.0 < chart.here_percent < 100.0
    for row in chart.rows:
        for band in (*row.go, *row.workable):
            assert 0.0 <= band.left_percent <= band.left_percent + band.width_percent <= 100.5
        assert row.text


def test_what_works_as_it_is_also_works_with_work(plan: Plan) -> None:
    """A thick bar never reaches beyond the thin ones."""
    chart = window_chart(plan.window, plan.part_windows, plan.scale_percent)
    for row in chart.rows:
        for inner in row.go:
            assert any(
                outer.left_percent - 0.5 <= inner.left_percent
                and inner.left_percent + inner.width_percent <= outer.left_percent + outer.width_percent + 0.5
                for outer in row.workable
            )

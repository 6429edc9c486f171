"""Report: a plan becomes JSON and one offline page.

1. ``plan_json(plan)`` gives the versioned dictionary.
2. ``page(plan)`` gives the whole HTML file as text.
3. ``bench_papers(plan)`` gives the bench sheets as HTML by file name.
4. ``picture_png(solid)`` draws a part.
"""

from planner.report.picture import picture_png

__all__ = ["picture_png"]

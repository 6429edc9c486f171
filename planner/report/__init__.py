"""Report: a plan becomes JSON and one offline page.

1. ``plan_json(plan)``, ``check_json``, ``window_json``, ``inspect_json``, ``settings_json`` give dictionaries.
2. ``page(plan, papers)`` gives the whole HTML file as text; ``papers`` lie beside it and are named in it.
3. ``write_plan(plan, folder)`` writes everything, each file whole or not at all; papers come before it.
4. ``picture_png(solid)`` draws a part.
"""

from planner.report import wording
from planner.report.audit_json import audit_json
from planner.report.calibrate_json import calibrate_json
from planner.report.chapter_json import chapter_json
from planner.report.escaped import escaping
from planner.report.folder import write_plan, write_text
from planner.report.mesh_json import inspect_json, settings_json
from planner.report.page import page
from planner.report.picture import picture_png
from planner.report.plan_json import check_json, plan_json, rebore_json, window_json

__all__ = [
    "audit_json",
    "calibrate_json",
    "chapter_json",
    "check_json",
    "escaping",
    "inspect_json",
    "page",
    "picture_png",
    "plan_json",
    "rebore_json",
    "settings_json",
    "window_json",
    "wording",
    "write_plan",
    "write_text",
]

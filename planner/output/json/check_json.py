"""What ``check`` found, as plain JSON types."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict

from planner.output.json.headline_json import asked_json, headline_json
from planner.output.json.plan_json import Json, finding_json, guesses_json
from planner.output.json.remedy_json import remedies_json
from planner.remedy import Remedies
from planner.rules import Checked
from planner.size import MeasureScale, Window, nearest_percent


def check_json(checked: Checked, window: Window, measures: Sequence[MeasureScale], remedies: Remedies) -> Json:
    """Return the result of ``check``, the nearest size that works, what each measure asks for, and what helps."""
    return {
        "schema": "fitwright/check/1",
        "scale_percent": checked.scale_percent,
        "verdict": checked.verdict.value,
        "checked_n": checked.checked_n,
        "features_n": checked.features_n,
        "not_checked": list(checked.not_checked),
        "guesses": guesses_json(checked.guesses),
        "headline": headline_json(checked.headline),
        "questions": [asked_json(question) for question in checked.questions],
        "nearest_percent": nearest_percent(window.passes, checked.scale_percent),
        "measures": [asdict(measure) for measure in measures],
        "remedies": remedies_json(remedies),
        "findings": [finding_json(finding, remedies.refused_for(finding)) for finding in checked.findings],
    }

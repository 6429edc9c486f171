"""What the JSON of ``check`` holds beside the tables that ``plan.json`` has as well."""

from __future__ import annotations

from planner.output.json.keys.key_rows import Tables

CHECK: Tables = {
    "": (
        "The answer of fitwright check --json. Its tables are those of plan.json.",
        {
            "schema": ("text", "fitwright/check/1."),
            "scale_percent": ("number", "The size that was judged, in percent of the drawn one."),
            "verdict": ("text", "go, go-with-work, hold or no-go: that of the worst finding."),
            "checked_n": ("whole number", "Features and settings that a rule could check."),
            "features_n": ("whole number", "Features found, and settings asked."),
            "not_checked": ("list of texts", "Rules of the settings that need layers: a plan asks them."),
            "guesses": ("list of {guess}", "Values that nobody stated."),
            "headline": ("{headline}", "What ends it, what hangs on answers, and how much is fine."),
            "questions": ("list of {question}", "What to answer or measure next, that which settles most first."),
            "nearest_percent": ("number or null", "The nearest size that works; null where there is none."),
            "measures": ("list of {measure}", "What each measure of the recipient asks for."),
            "remedies": ("list of {remedy}", "What settles findings; each was made and judged again."),
            "findings": ("list of {finding}", "What the rules found, the worst first."),
        },
    )
}

"""The smallest change of settings that makes them go: each number moved to the limit that it breaks, and no farther."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from planner.finding import Finding, Verdict, worst
from planner.job import Settings
from planner.rules.settings.setting_rule import SPEED_KEYS
from planner.sourced import stated

ROUNDS_MOST = 8
"""One change may break another rule: so often it is looked again."""
TO_LIMIT = {
    "layer.height": "layer_height_mm",
    "layer.first": "first_layer_height_mm",
    "line.width": "line_width_mm",
    "speed.first": "first_layer_speed_mm_s",
    "contours.load": "contours_n",
    "infill.share": "infill_percent",
    "fan.range": "fan_percent",
    "nozzle.range": "nozzle_c",
    "nozzle.reach": "nozzle_c",
    "bed.range": "bed_c",
    "bed.reach": "bed_c",
    "support.angle": "self_supporting_deg",
    "layer.cool": "least_layer_s",
}
"""Rules whose measured value is the setting itself."""
IN_PROPORTION = {
    "flow.first": "first_layer_speed_mm_s",
    "line.shape": "layer_height_mm",
    "line.first": "first_layer_height_mm",
}
"""Rules whose measured value goes as the setting, or as one over it."""
SHAPE = ("layer_height_mm", "first_layer_height_mm", "line_width_mm")
INVERSE = frozenset({"line.shape", "line.first"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One setting, before and after, and the rule that asks for it; ``before`` None: the material's own."""

    key: str
    before: float | None
    after: float
    rule: str


def smallest_change(
    settings: Settings, judge: Callable[[Settings], Sequence[Finding]]
) -> tuple[tuple[Change, ...], Verdict]:
    """Return the changes, and the verdict with them; none where no setting can cure what stands.

    ``judge`` gives the findings of a set of settings.
    """
    first, now = settings, settings
    asked: dict[str, str] = {}
    for _ in range(ROUNDS_MOST):
        moves = [move for finding in judge(now) if not _goes(finding) for move in _moves(now, finding)]
        if not moves:
            break
        shape = [move for move in moves if move[0] in SHAPE]
        moves = shape or moves  # what a line is comes first: flow and speed follow from it
        for key, value, rule in moves:
            asked.setdefault(key, rule)
            new: Any = round(value) if key == "contours_n" else stated(value, "smallest change")
            now = replace(now, **{key: new})
    changes = tuple(
        Change(key=key, before=_value(first, key), after=_value(now, key) or 0.0, rule=rule)
        for key, rule in asked.items()
    )
    return changes, worst(judge(now))


def _goes(finding: Finding) -> bool:
    """Return whether nothing is to be changed."""
    return finding.verdict is Verdict.GO


def _moves(settings: Settings, finding: Finding) -> list[tuple[str, float, str]]:
    """Return which settings to move where, for one finding."""
    rule, measured, limit = finding.rule, finding.measured, finding.limit
    if measured is None or limit is None:
        return []
    if rule in TO_LIMIT:
        return [(TO_LIMIT[rule], limit, rule)]
    if rule == "flow.melt" and finding.feature in SPEED_KEYS:
        key = SPEED_KEYS[finding.feature]
        return [(key, (_value(settings, key) or 0.0) * limit / measured, rule)]
    if rule in IN_PROPORTION:
        key = IN_PROPORTION[rule]
        share = measured / limit if rule in INVERSE else limit / measured
        return [(key, (_value(settings, key) or 0.0) * share, rule)]
    if rule == "speed.flexible":
        return [(key, limit, rule) for key in SPEED_KEYS.values() if (_value(settings, key) or 0.0) > limit]
    if rule == "solid.layers":
        key = "solid_top_mm" if "top" in finding.feature else "solid_bottom_mm"
        return [(key, limit * settings.layer_height_mm.value, rule)]
    return []


def _value(settings: Settings, key: str) -> float | None:
    """Return a setting as a number."""
    value = getattr(settings, key)
    return None if value is None else float(value) if isinstance(value, int) else float(value.value)

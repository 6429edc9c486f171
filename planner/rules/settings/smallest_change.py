"""The smallest change of settings that makes them go: each number moved to the limit that it breaks, and no farther."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from planner.finding import Finding, Verdict, worst
from planner.job import Settings, kind_of
from planner.sourced import stated

ROUNDS_MOST = 8
"""One change may break another rule, so the rules are asked again this often."""
SHAPE = ("layer_height_mm", "first_layer_height_mm", "line_width_mm")


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
    """Return which settings to move where, for one finding, as the kind of its rule says."""
    kind, measured, limit = kind_of(finding.rule), finding.measured, finding.limit
    key = kind.setting_for(finding.feature)
    if measured is None or limit is None or not kind.moves:
        return []
    if kind.moves == "all down to limit":
        return [(each, limit, kind.name) for each in kind.sets.values() if (_value(settings, each) or 0.0) > limit]
    if key is None:
        return []
    now = _value(settings, key) or 0.0
    to = {
        "to limit": limit,
        "in proportion": now * limit / measured if measured else limit,
        "inverse": now * measured / limit if limit else limit,
        "in layers": limit * settings.layer_height_mm.value,
    }
    return [(key, to[kind.moves], kind.name)]


def _value(settings: Settings, key: str) -> float | None:
    """Return a setting as a number."""
    value = getattr(settings, key)
    return None if value is None else float(value) if isinstance(value, int) else float(value.value)

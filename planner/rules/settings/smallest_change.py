"""The smallest change of settings that makes them go: each number moved to the limit that it breaks, and no farther.

A change is kept only where it cures its rule and makes no other rule worse; what it disturbs on the way is moved, too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from planner.finding import Finding, Verdict, worst
from planner.job import Settings, kind_of
from planner.rules.settings.tidy_number import step_of, tidy_down, tidy_up
from planner.sourced import stated

ROUNDS_MOST = 8
"""One change may break another rule, so the rules are asked again this often."""
SHAPE = ("layer_height_mm", "first_layer_height_mm", "line_width_mm")
"""What a line is comes first: flow and speed follow from it."""
COUNTS = ("contours_n",)

Judge = Callable[[Settings], Sequence[Finding]]
"""Gives the findings of a set of settings."""
Asked = tuple[str, str]
"""A rule and the part that it speaks of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One setting, before and after, and the rule that asks for it; ``before`` None: it was not set."""

    key: str
    before: float | None
    after: float
    rule: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Move:
    """One setting and the value that one finding asks for; ``up`` where that is more."""

    key: str
    value: float
    up: bool
    rule: str
    severity: int


def smallest_change(settings: Settings, judge: Judge) -> tuple[tuple[Change, ...], Verdict]:
    """Return the changes, and the verdict with them; none where no setting can cure what stands."""
    now, rules, tried = settings, dict[str, str](), set[Asked]()
    while True:
        findings = judge(now)
        left = [finding for finding in findings if not _goes(finding) and _asked(finding) not in tried]
        if not left:
            return _changes(settings, now, rules), worst(findings)
        first = min(left, key=lambda finding: not _shapes(finding))
        tried.add(_asked(first))
        cured = _cured(now, judge, findings, first)
        if cured is not None:
            now, rules = cured[0], {**rules, **{key: rule for key, rule in cured[1].items() if key not in rules}}


def setting_remedy(settings: Settings, judge: Judge, finding: Finding) -> tuple[Change, ...]:
    """Return the changes that make one finding's rule go on its part and no rule worse; none where no change does."""
    cured = _cured(settings, judge, judge(settings), finding)
    return _changes(settings, *cured) if cured else ()


def _cured(
    settings: Settings, judge: Judge, findings: Sequence[Finding], target: Finding
) -> tuple[Settings, dict[str, str]] | None:
    """Return settings with which a finding's rule goes and none is worse, with the rule that asked for each setting."""
    before, wanted = _severities(findings), _asked(target)
    now, rules = settings, dict[str, str]()
    for _ in range(ROUNDS_MOST):
        bad = [
            finding
            for finding in findings
            if not _goes(finding)
            and (_asked(finding) == wanted or finding.verdict.severity > before.get(_asked(finding), 0))
        ]
        if not bad:
            return now, rules
        moves = [move for finding in bad for move in _moves(now, finding)]
        changed = _moved(now, [move for move in moves if move.key in SHAPE] or moves)
        if changed == now:
            return None
        rules = {**rules, **{move.key: move.rule for move in moves if move.key not in rules}}
        now = changed
        findings = judge(now)
    return None


def _goes(finding: Finding) -> bool:
    """Return whether nothing is to be changed."""
    return finding.verdict is Verdict.GO


def _asked(finding: Finding) -> Asked:
    """Return the rule of a finding, and the part that it was asked about."""
    return finding.rule, finding.part


def _shapes(finding: Finding) -> bool:
    """Return whether what a line is cures a finding."""
    return bool(set(kind_of(finding.rule).sets.values()) & set(SHAPE))


def _severities(findings: Sequence[Finding]) -> Mapping[Asked, int]:
    """Return how bad each rule finds each part."""
    found: dict[Asked, int] = {}
    for finding in findings:
        found[_asked(finding)] = max(found.get(_asked(finding), 0), finding.verdict.severity)
    return found


def _moved(settings: Settings, moves: Sequence[_Move]) -> Settings:
    """Return settings with moves made; where several want one setting, the one that goes farthest for the worst."""
    chosen: dict[str, _Move] = {}
    for move in moves:
        other = chosen.get(move.key)
        farther = other is None or move.severity > other.severity
        if other is not None and move.severity == other.severity and move.up == other.up:
            farther = move.value > other.value if move.up else move.value < other.value
        if farther:
            chosen[move.key] = move
    values: dict[str, Any] = {}
    for key, move in chosen.items():
        tidy = tidy_up(move.value, step_of(key)) if move.up else tidy_down(move.value, step_of(key))
        values[key] = round(tidy) if key in COUNTS else stated(tidy, "smallest change")
    return replace(settings, **values)


def _moves(settings: Settings, finding: Finding) -> list[_Move]:
    """Return which settings to move where, for one finding, as the kind of its rule says."""
    kind, measured, limit = kind_of(finding.rule), finding.measured, finding.limit
    if measured is None or limit is None or kind.moves in ("", "to a word"):
        return []

    def move(key: str, value: float) -> _Move:
        now = _value(settings, key)
        up = measured < limit if now is None else value > now
        return _Move(key=key, value=value, up=up, rule=kind.name, severity=finding.verdict.severity)

    if kind.moves == "all down to limit":
        return [move(each, limit) for each in kind.sets.values() if (_value(settings, each) or 0.0) > limit]
    key = kind.setting_for(finding.feature)
    if key is None:
        return []
    now = _value(settings, key) or 0.0
    to = {
        "to limit": limit,
        "in proportion": now * limit / measured if measured else limit,
        "in layers": limit * settings.layer_height_mm.value,
    }
    return [move(key, to[kind.moves])]


def _changes(before: Settings, after: Settings, rules: Mapping[str, str]) -> tuple[Change, ...]:
    """Return what differs, each with the rule that asked for it."""
    return tuple(
        Change(key=key, before=_value(before, key), after=_value(after, key) or 0.0, rule=rule)
        for key, rule in rules.items()
        if _value(before, key) != _value(after, key)
    )


def _value(settings: Settings, key: str) -> float | None:
    """Return a setting as a number."""
    value = getattr(settings, key)
    return None if value is None else float(value) if isinstance(value, int) else float(value.value)

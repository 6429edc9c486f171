"""A row of the table of rules: what a person may want to know of a rule, with its limit as numbers and words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from planner.errors import CommandError, nearest
from planner.job import Limits, rule_kinds
from planner.sourced import Sourced

MAY_CHANGE = {
    "limits": "a limits file of the job's own ([job] limits)",
    "job": "the job file",
    "printer": "the printer's profile",
    "material": "the material's profile",
    "override": "a person by role, who lifts a hold ([[override]])",
    "nobody": "nobody: it follows from geometry or from what was measured",
}
"""Who may change a limit or lift a hold, in words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitNumber:
    """One number of a rule's limit; ``low`` and ``high`` are its range, ``kind`` and ``source`` its origin."""

    key: str
    value: float
    low: float
    high: float
    kind: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleRow:
    """One rule; ``limit`` and ``source`` are words, ``numbers`` the same as data."""

    name: str
    family: str
    station: str
    compares: str
    asks: tuple[str, ...]
    limit: str
    numbers: tuple[LimitNumber, ...]
    source: str
    remedy: str
    changed_by: tuple[str, ...]
    bench: bool
    coupon: bool


def rule_rows(limits: Limits, name: str = "") -> tuple[RuleRow, ...]:
    """Return the rows of all rules, of one, or of those whose names begin with a word such as ``"bore"``.

    Raises
    ------
    CommandError
        Where no rule has that name.
    """
    rows = []
    for rule, kind in rule_kinds().items():
        if name not in ("", rule, rule.partition(".")[0]):
            continue
        named = [(key, getattr(limits, key)) for key in kind.limit_keys] + list(limits.own.get(rule, {}).items())
        rows.append(
            RuleRow(
                name=rule,
                family=kind.family,
                station=kind.station,
                compares=kind.compares,
                asks=tuple(sorted(kind.asks)),
                limit="; ".join([*([kind.limit] if kind.limit else []), *(_told(key, one) for key, one in named)]),
                numbers=tuple(_number(key, one) for key, one in named),
                source=_sources(kind.source, [one for _, one in named]),
                remedy=kind.remedy,
                changed_by=tuple(MAY_CHANGE[who] for who in kind.changed_by),
                bench=bool(kind.bench),
                coupon=kind.coupon,
            )
        )
    if not rows:
        near = nearest(name, {*rule_kinds(), *(rule.partition(".")[0] for rule in rule_kinds())})
        todo = near if near.startswith("did you mean") else "fitwright rules lists them all"
        raise CommandError(where=f"rule '{name}'", wrong="no rule has that name", todo=todo)
    return tuple(rows)


def _told(key: str, number: Sourced) -> str:
    """Return a number with its key, and its range where it has one."""
    ranged = "" if number.low == number.high else f" ({number.low:g} to {number.high:g})"
    return f"{key} = {number.value:g}{ranged}"


def _number(key: str, number: Sourced) -> LimitNumber:
    """Return a number as data."""
    return LimitNumber(
        key=key, value=number.value, low=number.low, high=number.high, kind=number.kind, source=number.source
    )


def _sources(words: str, numbers: Sequence[Sourced]) -> str:
    """Return all sources of a limit, each once."""
    return "; ".join(dict.fromkeys(text for text in (words, *(number.source for number in numbers)) if text))

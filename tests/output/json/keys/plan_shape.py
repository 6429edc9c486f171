"""How a plan's JSON is held against its reference: every table that is met has just the keys that are written down."""

from __future__ import annotations

import re
from datetime import datetime
from typing import Any

from planner.output.json.keys.plan_keys import PLAN

PLAIN: dict[str, Any] = {
    "text": str,
    "number": (int, float),
    "whole number": int,
    "true, false": bool,
    "list": list,
    "map": dict,
}


def misfits(told: Any) -> tuple[list[str], set[str]]:
    """Return where a plan differs from its reference, and the names of the tables that it shows."""
    wrong: list[str] = []
    met: set[str] = set()
    _table(told, "", "plan", wrong, met)
    return wrong, met


def _table(value: Any, name: str, where: str, wrong: list[str], met: set[str]) -> None:
    """Hold one table against the reference."""
    met.add(name)
    if not isinstance(value, dict):
        wrong.append(f"{where}: no table")
        return
    rows = PLAN[name][1]
    wrong.extend(f"{where}.{key}: not in the reference" for key in value.keys() - rows.keys())
    wrong.extend(f"{where}.{key}: not in the plan" for key in rows.keys() - value.keys())
    for key in value.keys() & rows.keys():
        _value(value[key], rows[key][0], f"{where}.{key}", wrong, met)


def _value(value: Any, takes: str, where: str, wrong: list[str], met: set[str]) -> None:
    """Hold one value against what the reference says it takes."""
    if takes.endswith(" or null"):
        if value is None:
            return
        takes = takes.removesuffix(" or null")
    many = re.fullmatch(r"list of (maps of numbers|numbers|texts|times|\{\w+\})", takes)
    if many is not None:
        one = many[1] if many[1].startswith("{") else many[1].replace("maps", "map")
        one = one if one.startswith(("{", "map")) else one.removesuffix("s")
        for index, each in enumerate(value):
            _value(each, one, f"{where}[{index}]", wrong, met)
    elif takes.startswith("{"):
        _table(value, takes.strip("{}"), where, wrong, met)
    elif not _holds(value, takes):
        wrong.append(f"{where}: {value!r} is no {takes}")


def _holds(value: Any, takes: str) -> bool:
    """Return whether a plain value is what the reference says."""
    if takes == "[x, y, z]":
        return isinstance(value, list | tuple) and len(value) == 3
    if takes == "map of numbers":
        return all(isinstance(each, int | float) for each in value.values())
    if takes == "time":
        return bool(datetime.fromisoformat(value))
    return isinstance(value, PLAIN[takes]) and (takes == "true, false" or not isinstance(value, bool))

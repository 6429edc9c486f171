"""Remedies as plain JSON types: what each does, as the edits that it makes in the job file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from planner.job import Edit
from planner.remedy import Refused, Remedies, Remedy

Json = dict[str, object]


def remedies_json(remedies: Remedies) -> list[Json]:
    """Return all remedies, by their numbers."""
    return [_remedy(remedy) for remedy in remedies.found]


def _remedy(remedy: Remedy) -> Json:
    """Return one remedy."""
    return {
        "n": remedy.n,
        "kind": remedy.kind,
        "text": remedy.text,
        "part": remedy.part,
        "does": {"edits": [_edit(edit) for edit in remedy.does]},
        "costs": {"minutes": remedy.costs.minutes_min, "money": remedy.costs.money},
        "leaves_verdict": remedy.leaves_verdict.value,
        "refused": refused_json(remedy.refused),
        "settles": [{"rule": rule, "part": part, "feature": feature} for rule, part, feature, _ in remedy.settles],
    }


def refused_json(refused: Iterable[Refused]) -> list[Json]:
    """Return ways that were tried and do not work, each with why."""
    return [{"text": one.text, "why": one.why} for one in refused]


def _edit(edit: Edit) -> Json:
    """Return one edit."""
    return {
        "table": edit.table,
        "name": edit.name,
        "put": {key: _plain(value) for key, value in edit.put.items()},
        "without": list(edit.without),
        "drop": edit.drop,
    }


def _plain(value: object) -> object:
    """Return a value as JSON knows it."""
    if isinstance(value, Mapping):
        return dict(value)
    return list(value) if isinstance(value, Sequence) and not isinstance(value, str) else value

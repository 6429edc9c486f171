"""What some edits change of a job, kept apart from the job: so that several answers can be laid over each other."""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, cast

from planner.errors import JobError
from planner.job.file.edits import Edit, change, read_tables, source_text, with_meshes
from planner.job.file.toml_file import toml_table
from planner.job.job import Job

MEASURED_ANEW = frozenset(("mesh", "mesh_object", "mesh_unit", "scale_percent", "sha256"))
"""Keys of the job, or of a part, after whose change its meshes would have to be measured again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changes:
    """The fields of a job that edits change, each before and after."""

    pairs: tuple[tuple[str, object, object], ...]

    def on(self, job: Job) -> Job:
        """Return another state of the same job with the changes made, entry by entry and field by field."""
        put = {name: _merged(getattr(job, name), before, after) for name, before, after in self.pairs}
        return replace(job, **cast("Any", put))

    @property
    def remeasures(self) -> bool:
        """Whether the meshes would have to be measured again."""
        return any(
            name in MEASURED_ANEW or name == "size" or bool(_keys_changed(before, after) & MEASURED_ANEW)
            for name, before, after in self.pairs
        )

    @property
    def of_guesses(self) -> bool:
        """Whether they touch an entry with keys that were guessed, or a duty that was left out."""
        return any(_guessed(before, after) for _, before, after in self.pairs)


def changes_of(job: Job, answers: Sequence[Sequence[Edit]]) -> tuple[Changes, ...]:
    """Return what each of several lists of edits changes, each by itself; the job's text is read once.

    Raises
    ------
    JobError, ProfileError
        Where an edited file would not load.
    """
    if not any(answers):
        return tuple(Changes(pairs=()) for _ in answers)
    text, base = source_text(job)
    document = toml_table(text, job.path.name, JobError).raw
    before = read_tables(document, job.path, base)
    found = []
    for edits in answers:
        tables = deepcopy(document)
        change(tables, with_meshes(job, edits, document, base))
        after = read_tables(tables, job.path, base) if edits else before
        found_pairs = [(f.name, getattr(before, f.name), getattr(after, f.name)) for f in fields(Job)]
        found.append(Changes(pairs=tuple(pair for pair in found_pairs if pair[1] != pair[2])))
    return tuple(found)


def _called(entry: object) -> object:
    """Return what an entry of a list is called, as an edit calls it."""
    for key in ("between", "name", "part", "rule", "material"):
        if hasattr(entry, key):
            return getattr(entry, key)
    return entry


def _merged(now: object, before: object, after: object) -> object:
    """Return a value with the way from ``before`` to ``after`` gone by what it is now."""
    if now == before:
        return after
    if isinstance(now, tuple) and isinstance(before, tuple) and isinstance(after, tuple):
        return _merged_list(now, before, after)
    if is_dataclass(now) and type(now) is type(before) is type(after):
        changed = _keys_of(before, after)
        return replace(cast("Any", now), **{key: getattr(after, key) for key in changed})
    return after


def _merged_list(now: tuple[object, ...], before: tuple[object, ...], after: tuple[object, ...]) -> tuple[object, ...]:
    """Return a list of entries with those changed, added and dropped that are so from ``before`` to ``after``."""
    was = {_called(entry): entry for entry in before}
    gets = {_called(entry): entry for entry in after}
    kept = [
        entry if name not in was else _merged(entry, was[name], gets[name])
        for entry in now
        for name in [_called(entry)]
        if name in gets or name not in was
    ]
    have = {_called(entry) for entry in now}
    return (*kept, *(entry for name, entry in gets.items() if name not in was and name not in have))


def _keys_of(before: object, after: object) -> set[str]:
    """Return the fields of a record that differ."""
    return {f.name for f in fields(cast("Any", before)) if getattr(before, f.name) != getattr(after, f.name)}


def _guessed(before: object, after: object) -> bool:
    """Return whether something that nobody stated differs, or is gone."""
    if not isinstance(before, tuple) or not isinstance(after, tuple):
        return False
    gets = {_called(entry): entry for entry in after}
    changed = [entry for entry in before if gets.get(_called(entry)) != entry]
    return any(getattr(entry, "guessed", ()) or getattr(entry, "duty", "") is None for entry in changed)


def _keys_changed(before: object, after: object) -> set[str]:
    """Return the fields that differ in any entry of a list."""
    if not isinstance(before, tuple) or not isinstance(after, tuple):
        return set()
    was = {_called(entry): entry for entry in before}
    pairs = [(was[_called(entry)], entry) for entry in after if _called(entry) in was]
    return {key for one, other in pairs if is_dataclass(one) for key in _keys_of(one, other)}

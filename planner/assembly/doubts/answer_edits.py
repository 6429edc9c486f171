"""What an answer puts into a job: records, and the same as edits of its file."""

from __future__ import annotations

from dataclasses import dataclass, fields, is_dataclass, replace
from pathlib import Path
from typing import Any

from planner.job import BoreEnds, Cord, Edit, Hardware, Joint, LeftOpen, Strap


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """One answer, with its weight: how well the form speaks for it, beside the other answers to the same question."""

    name: str
    """As an answer file says it: ``"m3-screw"``."""
    text: str
    """A clause after "if"."""
    weight_factor: float
    hardware: tuple[Hardware, ...] = ()
    left_open: tuple[LeftOpen, ...] = ()
    cords: tuple[Cord, ...] = ()
    straps: tuple[Strap, ...] = ()
    joints: tuple[Joint, ...] = ()
    shared: frozenset[tuple[str, str]] = frozenset()
    """Joints that answers to other questions state as well: no answer to this one takes them out."""

    def only(self, ends: BoreEnds | None, bore_mm: float) -> Answer:
        """Return the answer for the through, or the blind, bores of a size alone; None for all of them."""
        if ends is None:
            return self
        return replace(
            self,
            hardware=tuple(replace(o, bores=ends) if o.bore_mm == bore_mm else o for o in self.hardware),
            left_open=tuple(replace(o, bores=ends) if o.bore_mm == bore_mm else o for o in self.left_open),
        )

    @property
    def edits(self) -> tuple[Edit, ...]:
        """The edits that write its records."""
        tables = (
            ("hardware", self.hardware),
            ("open", self.left_open),
            ("cord", self.cords),
            ("strap", self.straps),
            ("joint", self.joints),
        )
        return tuple(_edit(table, record) for table, records in tables for record in records)

    @property
    def names(self) -> frozenset[tuple[str, str]]:
        """The table and name of every record that it writes."""
        return frozenset((edit.table, edit.name) for edit in self.edits)


def _edit(table: str, record: Any) -> Edit:
    """Return the edit that writes one record: its name, and every key that says something."""
    name = record.name or " to ".join(record.between)
    return Edit(table=table, name=name, put=_said(record), guessed=record.guessed)


def _said(record: Any) -> dict[str, Any]:
    """Return every key of a record that says something."""
    return {
        field.name: _plain(value)
        for field in fields(record)
        if field.name != "guessed" and (value := getattr(record, field.name)) != field.default
    }


def _plain(value: Any) -> Any:
    """Return a value as a file holds it; a length to the micrometre."""
    if is_dataclass(value):
        return _said(value)
    if isinstance(value, tuple):
        return [_plain(one) for one in value]
    if isinstance(value, float):
        return round(value, 3)
    return str(value) if isinstance(value, Path) else value

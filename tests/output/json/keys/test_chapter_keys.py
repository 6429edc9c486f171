"""The keys of a chapter's file."""

from __future__ import annotations

import inspect
import re
from pathlib import Path

from planner.ledger import chapter_file, events_of
from planner.output import chapter_tables
from tests.ledger.telling import DAY

EXAMPLES = {
    "code": '"M-1"',
    "roles": '["maker"]',
    "away": '["2026-12-24"]',
    "name": '"bench-1"',
    "profile": '"bench-220"',
    "printer": '"bench-1"',
    "attended": '["Mon-Fri 17:30-22:30"]',
    "nozzle_mm": "0.4",
    "moves_a_day": "12",
}
"""What stands for keys that not any text, number or day may stand for."""
BY_KIND = {"text": '"petg"', "number": "7.5", "day": "2027-03-01"}


def test_a_file_with_every_key_is_read(tmp_path: Path) -> None:
    """What the reference names the reader takes; and each key has its sentence."""
    lines = list[str]()
    for table in chapter_tables():
        lines += [
            table.heading,
            *(f"{key.name} = {EXAMPLES.get(key.name) or BY_KIND[key.takes]}" for key in table.keys),
        ]
        assert all(key.meaning.endswith(".") for key in table.keys)
    path = tmp_path / "chapter.toml"
    path.write_text("\n".join(lines), encoding="utf-8")

    assert {event.kind for event in events_of(path, DAY)} == {"person", "printer", "measured", "spool"}


def test_every_key_that_the_reader_asks_for_is_in_the_reference() -> None:
    """By the reader's own source: none of its keys is left out."""
    asked = re.findall(r'\.(?:text|texts|number|number_or_none|day)\("(\w+)"', inspect.getsource(chapter_file))

    assert set(asked) <= {key.name for table in chapter_tables() for key in table.keys}
    assert len(asked) > 15

"""A few hundred mutated files before every reader, in every run; ``python -m tests.hostile`` takes ten thousand."""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from tests.hostile.fuzz import faults
from tests.hostile.mutants import mutated


@pytest.mark.filterwarnings("default")
def test_mutated_files_are_read_or_refused_in_one_sentence(tmp_path: Path) -> None:
    """Four hundred files of twelve kinds: no traceback, no warning, none over 20 s of processor time."""
    assert [(fault.kind, fault.what) for fault in faults(tmp_path, 22, 400)] == []


def test_the_same_seed_gives_the_same_damage() -> None:
    """A fault that is found once can be looked at again."""
    raw = Path(__file__).read_bytes()

    assert mutated(raw, random.Random(5)) == mutated(raw, random.Random(5)) != raw  # noqa: S311  a seeded draw

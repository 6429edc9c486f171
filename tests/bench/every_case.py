"""Random cases: a few of them in the suite, all of them by ``python -m tests.bench.every_case [PYTEST'S WORDS]``."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest

EVERY = "FITWRIGHT_WHOLE_GRID"
"""Set, tests go through all of their cases; the few of the suite are the first of them."""


def every_case() -> bool:
    """Return whether all cases are gone through."""
    return os.environ.get(EVERY, "") not in ("", "0")


def cases(few_n: int, all_n: int) -> range:
    """Return the numbers of the cases that are gone through now."""
    return range(all_n if every_case() else few_n)


def main(words: list[str]) -> int:
    """Run all cases of every test that asks here for them, and return pytest's exit code."""
    os.environ[EVERY] = "1"
    here = Path(__file__)
    texts = {path: path.read_text(encoding="utf-8") for path in sorted(here.parents[1].rglob("test_*.py"))}
    asking = [str(path) for path, text in texts.items() if here.stem in text or EVERY in text]
    return int(pytest.main([*asking, *words]))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))

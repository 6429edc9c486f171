"""The clock of a search: it stands still while the search is compiled, once on each machine."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager


class SearchClock:
    """Seconds that a search has had; called like ``time.monotonic``."""

    def __init__(self) -> None:
        self.stood_s = 0.0

    def __call__(self) -> float:
        """Return seconds of search since some moment."""
        return time.monotonic() - self.stood_s

    @contextmanager
    def stopped(self) -> Iterator[None]:
        """Let the clock stand still for what is not search."""
        begin = time.monotonic()
        try:
            yield
        finally:
            self.stood_s += time.monotonic() - begin

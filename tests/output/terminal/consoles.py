"""A terminal of 80 columns whose text can be read back."""

from __future__ import annotations

import io

from rich.console import Console


def console() -> tuple[Console, io.StringIO]:
    """Return a console of 80 columns, and where it writes."""
    written = io.StringIO()
    return Console(file=written, width=80, highlight=False), written

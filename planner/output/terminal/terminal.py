"""What a terminal shows: 80 columns, no colour needed, progress only where somebody watches."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

from rich.console import Console
from rich.markup import escape
from rich.progress import BarColumn, Progress, TextColumn, TimeElapsedColumn
from rich.table import Table
from rich.text import Text

from planner.finding import Verdict
from planner.output.terminal.finding_list import STYLES
from planner.plan import Progress as Report
from planner.plan import no_progress
from planner.whole_file import whole

WIDTH = 80


class Out:
    """Where a command prints: text for people, or JSON; never both on stdout."""

    def __init__(self, *, json_path: str, quiet: bool) -> None:
        self.json_path = json_path
        self.silent = quiet or json_path == "-"
        self.console = Console(width=None if _wide() else WIDTH, highlight=False, soft_wrap=False, quiet=self.silent)

    def emit(self, result: Mapping[str, object]) -> None:
        """Write the JSON result where it was asked for, whole or not at all."""
        if not self.json_path:
            return
        text = json.dumps(result, indent=1, ensure_ascii=False, allow_nan=False) + "\n"
        if self.json_path == "-":
            sys.stdout.write(text)
            return
        path = Path(self.json_path)
        with whole(path, 0o600) as aside:
            aside.write_text(text, encoding="utf-8")

    @contextmanager
    def progress(self) -> Iterator[Report]:
        """Show progress on stderr while a person watches; say nothing elsewhere."""
        if self.silent or not sys.stderr.isatty():
            yield no_progress
            return
        columns = (TextColumn("{task.description}"), BarColumn(bar_width=20), TimeElapsedColumn())
        # without a thread of its own: where there is one, no work is shared out to other cores
        with Progress(*columns, console=Console(stderr=True), transient=True, auto_refresh=False) as bar:
            task = bar.add_task("starting", total=1.0)
            yield lambda what, share: bar.update(task, description=what[:40], completed=share, refresh=True)


def _wide() -> bool:
    """Return whether stdout is a terminal narrower than our own width, that rich should follow."""
    return sys.stdout.isatty() and os.get_terminal_size().columns < WIDTH


def verdict_line(verdict: Verdict, rest: str) -> str:
    """Return the headline."""
    return f"[{STYLES[verdict]}]{verdict.value.upper()}[/]  {escape(rest)}"


def notes(console: Console, title: str, lines: Sequence[str]) -> None:
    """Print a titled list, each line indented below its dash, or nothing."""
    if lines:
        console.print(f"\n[bold]{title}[/]")
        rows = Table.grid(padding=(0, 1, 0, 0))
        for line in lines:
            rows.add_row(" -", Text(line))
        console.print(rows)

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

from planner.finding import Finding, Verdict
from planner.plan import Progress as Report
from planner.plan import no_progress
from planner.whole_file import whole

WIDTH = 80
SIGNS = {Verdict.GO: "ok", Verdict.GO_WITH_WORK: "work", Verdict.HOLD: "hold", Verdict.NO_GO: "no"}
STYLES = {Verdict.GO: "default", Verdict.GO_WITH_WORK: "cyan", Verdict.HOLD: "yellow", Verdict.NO_GO: "bold red"}


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
        with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
            task = bar.add_task("starting", total=1.0)
            yield lambda what, share: bar.update(task, description=what[:40], completed=share)


def _wide() -> bool:
    """Return whether stdout is a terminal narrower than our own width, that rich should follow."""
    return sys.stdout.isatty() and os.get_terminal_size().columns < WIDTH


def verdict_line(verdict: Verdict, rest: str) -> str:
    """Return the headline."""
    return f"[{STYLES[verdict]}]{verdict.value.upper()}[/]  {escape(rest)}"


def finding_table(findings: Sequence[Finding], title: str) -> Table:
    """Return findings as a table; findings that differ only in their feature share a row."""
    table = Table(title=title, title_justify="left", show_lines=False, expand=True, box=None, padding=(0, 1, 0, 0))
    table.add_column("", no_wrap=True, width=4)
    table.add_column("part", overflow="fold", ratio=3)
    table.add_column("what was found", overflow="fold", ratio=5)
    table.add_column("what to do", overflow="fold", ratio=4)
    for finding, more in _grouped(findings):
        phrase = finding.why + (f" (and {more} like it)" if more else "")
        cure = finding.remedy or finding.caution
        cells = (SIGNS[finding.verdict], finding.part or "job", phrase, cure)
        table.add_row(*(Text(cell) for cell in cells), style=STYLES[finding.verdict])
    return table


def _grouped(findings: Sequence[Finding]) -> list[tuple[Finding, int]]:
    """Return each kind of finding once, with how many more there are."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.rule, finding.part, finding.verdict, finding.remedy, f"{finding.measured or 0:.2f}")
        groups.setdefault(key, []).append(finding)
    return [(group[0], len(group) - 1) for group in groups.values()]


def notes(console: Console, title: str, lines: Sequence[str]) -> None:
    """Print a titled list, each line indented below its dash, or nothing."""
    if lines:
        console.print(f"\n[bold]{title}[/]")
        rows = Table.grid(padding=(0, 1, 0, 0))
        for line in lines:
            rows.add_row(" -", Text(line))
        console.print(rows)

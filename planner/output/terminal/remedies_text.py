"""Remedies in a terminal: what each does, what it costs, and why nearer ways fail."""

from __future__ import annotations

from rich.console import Console
from rich.table import Table
from rich.text import Text

from planner.job import Job
from planner.output.words.remedy_words import price_words
from planner.remedy import Remedies


def show_remedies(console: Console, remedies: Remedies, job: Job) -> None:
    """Print every remedy with its number; nothing where there is none."""
    if not remedies.found:
        return
    console.print("\n[bold]What helps: each was tried, and spoils nothing else[/]")
    rows = Table.grid(padding=(0, 1, 0, 0))
    for remedy in remedies.found:
        rows.add_row(f"{remedy.n:>2}", Text(f"{remedy.text} ({price_words(remedy, job)})"))
        for refused in remedy.refused[:2]:
            rows.add_row("", Text(f"  not: {refused.text}: {refused.why}", style="dim"))
    console.print(rows)
    console.print("fitwright check JOB --do N writes one of them into the job.", markup=False)

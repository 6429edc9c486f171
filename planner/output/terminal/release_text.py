"""A release in a terminal: released or not, what is missing, who answers for what."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console
from rich.markup import escape
from rich.table import Table
from rich.text import Text

from planner.output.record.release import Release
from planner.output.terminal.terminal import notes
from planner.plan import Plan


def show_release(console: Console, plan: Plan, judged: Release, sheet: Path) -> None:
    """Print the outcome."""
    word = ("RELEASED BY OVERRIDE" if judged.answered else "RELEASED") if judged.released else "NOT RELEASED"
    style = "default" if judged.released else "yellow"
    console.print(
        f"[{style}]{word}[/]  {escape(plan.job.name)} at {plan.scale_percent:.4g} %, {judged.day.isoformat()}"
    )
    if judged.missing:
        table = Table(title="\nWhat is missing", title_justify="left", expand=True, box=None, padding=(0, 1, 0, 0))
        table.add_column("item", overflow="fold", ratio=3)
        table.add_column("what", overflow="fold", ratio=5)
        table.add_column("what to do", overflow="fold", ratio=4)
        for one in judged.missing:
            table.add_row(Text(one.item), Text(one.what), Text(one.todo))
        console.print(table)
    notes(
        console, "Approved exceptions", [f"{a.missing.item}: {a.lift.role}, {a.lift.reason}" for a in judged.answered]
    )
    notes(console, "Overrides that are not needed", [lift.item for lift in judged.needless])
    notes(console, "In the record but not in this plan, so ignored", judged.strange)
    if judged.missing:
        console.print("\nFill in the record, or add an [[override]] with item, role and reason to it.", markup=False)
    console.print(f"\nhand-over sheet: {sheet}", markup=False, soft_wrap=True)

"""What re-boring changed, in a terminal."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console
from rich.table import Table
from rich.text import Text

from planner.finding import Verdict
from planner.output.terminal.finding_list import finding_list
from planner.output.terminal.terminal import verdict_line
from planner.output.words.size_words import reach_words
from planner.rebore import Change
from planner.rules import Checked
from planner.size import Window


def show_rebored(
    console: Console,
    changes: Sequence[Change],
    percent: float,
    checked: tuple[Checked, Checked],
    windows: tuple[Window, Window],
    folder: Path,
) -> None:
    """Print each opening before and after, the verdict and the window before and after."""
    console.print(verdict_line(checked[1].verdict, f"after re-boring at {percent:.4g} %"))
    table = Table(title="\nOpenings at this size, as drawn", title_justify="left", box=None, padding=(0, 1, 0, 0))
    for title in ("part", "opening", "hardware", "before", "after", ""):
        table.add_column(title, overflow="fold", justify="right" if title in ("before", "after") else "left")
    for alike in _alike(changes):
        change, names = alike[0], " ".join(change.feature.removeprefix(f"{change.kind} ") for change in alike)
        after = "" if change.kept else f"{change.after_mm:.2f} mm"
        word = {"boss": "material at"}.get(change.kind, change.kind)
        cells = (change.part, f"{word} {names}", change.hardware, f"{change.before_mm:.2f} mm", after, change.kept)
        table.add_row(*(Text(cell) for cell in cells))
    console.print(table)
    console.print(f"\nsizes that worked before: {reach_words(windows[0].workable)} of the drawn size", markup=False)
    console.print(
        f"sizes that work now:      {reach_words(windows[1].workable, percent / 100)} of the drawn size", markup=False
    )
    bad = [finding for finding in checked[1].findings if finding.verdict is not Verdict.GO]
    if bad:
        console.print(finding_list(bad, "\nStill to do"))
    console.print(f"\nparts: {folder / 'parts'}", markup=False, soft_wrap=True)


def _alike(changes: Sequence[Change]) -> list[list[Change]]:
    """Group the openings of one part that were and are of one size."""
    groups: dict[tuple[str, str, str, float, float, str], list[Change]] = {}
    for change in changes:
        sizes = round(change.before_mm, 2), round(change.after_mm, 2)
        key = (change.part, change.kind, change.hardware, *sizes, change.kept)
        groups.setdefault(key, []).append(change)
    return list(groups.values())

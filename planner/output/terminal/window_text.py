"""The window of sizes in a terminal: two bars a line, and the cause at each end."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from planner.finding import Finding
from planner.size import Interval, Reach, Widening, Window, nearest_percent

LOW, HIGH, CELLS = 50.0, 160.0, 44
"""Percents that the bar shows, and its length in characters."""


def show_window(console: Console, name: str, percent: float, whole: Window, parts: Sequence[Window]) -> None:
    """Print the window of the job, its ends, and the window of each part."""
    console.print(f"[bold]{escape(name)}[/]: sizes that work; the job asks for {percent:.4g} %")
    for title, reach in (("go", whole.go), ("workable", whole.workable)):
        console.print(f"\n{title:9}{spans(reach)}", markup=False)
        console.print(f"{'':9}{bar(reach, percent)}", markup=False)
        _ends(console, reach)
    table = Table(title=f"\nEach part alone, {LOW:g} to {HIGH:g} %, workable", title_justify="left", box=None)
    table.add_column("part", overflow="fold", max_width=16)
    table.add_column("", no_wrap=True)
    table.add_column("workable", no_wrap=True)
    for part in parts:
        table.add_row(escape(part.part), bar(part.workable, percent, CELLS - 12), spans(part.workable))
    console.print(table)
    console.print("# go or workable   . not   | the job's size", markup=False)


def show_limits(console: Console, percent: float, features: Sequence[tuple[str, Window]]) -> None:
    """Print every feature that ends anywhere: its bar, and its spans."""
    table = Table(title="\nEvery limit, workable", title_justify="left", box=None)
    table.add_column("part: feature", overflow="fold", max_width=24)
    table.add_column("", no_wrap=True)
    table.add_column("workable", overflow="fold")
    for feature, one in features:
        name = f"{one.part}: {feature}" if one.part else feature
        table.add_row(escape(name), bar(one.workable, percent, CELLS - 20), spans(one.workable))
    console.print(table)


def show_widenings(console: Console, percent: float, whole: Window, steps: Sequence[Widening]) -> None:
    """Print the nearest size that works, and what would widen the window most."""
    nearest = nearest_percent(whole.workable, percent)
    if nearest is not None and nearest != percent:
        console.print(f"\nNearest size that works: {nearest:.4g} %", markup=False)
    if not steps:
        return
    table = Table(title="\nWhat would widen it, each alone", title_justify="left", box=None, expand=True)
    table.add_column("do this", overflow="fold", ratio=5)
    table.add_column("workable then", overflow="fold", ratio=3)
    table.add_column("points", justify="right", no_wrap=True)
    for step in steps:
        reaches = "; reaches the job's size" if step.reaches else ""
        table.add_row(escape(step.told), span(step.interval) + reaches, f"{step.gain_percent:+.1f}")
    console.print(table)


def spans(reach: Reach, factor: float = 1.0) -> str:
    """Return all intervals in words; ``factor`` turns percents of one size into those of another."""
    return ", ".join(span(interval, factor) for interval in reach.intervals) or "no size"


def span(interval: Interval, factor: float = 1.0) -> str:
    """Return one interval in words."""
    low = None if interval.low_percent is None else interval.low_percent * factor
    high = None if interval.high_percent is None else interval.high_percent * factor
    if low is None and high is None:
        return "any size"
    if low is None:
        return f"up to {high:.1f} %"
    return f"{low:.1f} % and more" if high is None else f"{low:.1f} to {high:.1f} %"


def bar(reach: Reach, percent: float, cells: int = CELLS) -> str:
    """Return the intervals as a bar of characters."""
    step = (HIGH - LOW) / cells
    marks = []
    for index in range(cells):
        middle = LOW + (index + 0.5) * step
        works = any(
            (i.low_percent is None or i.low_percent <= middle) and (i.high_percent is None or middle <= i.high_percent)
            for i in reach.intervals
        )
        marks.append("|" if abs(middle - percent) <= step / 2 else "#" if works else ".")
    return "".join(marks)


def _ends(console: Console, reach: Reach) -> None:
    """Print what ends the nearest interval, or what fails where there is none."""
    if reach.nearest is None:
        for finding in reach.causes[:3]:
            console.print(f"{'':9}fails: {_told(finding)}", markup=False)
        return
    for where, cause in (("smaller", reach.nearest.low_cause), ("larger", reach.nearest.high_cause)):
        if cause is not None:
            console.print(f"{'':9}{where}: {_told(cause)}", markup=False)


def _told(finding: Finding) -> str:
    """Return a finding in one line."""
    return f"{finding.part or 'job'}: {finding.why}"

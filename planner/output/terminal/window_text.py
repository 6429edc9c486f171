"""The sizes that work in a terminal: a bar for each range, and the cause at each end."""

from __future__ import annotations

from collections.abc import Sequence

from rich.console import Console
from rich.markup import escape
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from planner.finding import Finding, Verdict
from planner.output.words.size_words import interval_words, reach_words
from planner.size import Reach, Widening, Window, nearest_percent

LOW, HIGH, CELLS = 50.0, 160.0, 44
"""Percents that the bar shows, and its length in characters."""
INDENT_N = 10
CAUSES_MOST, NAME_MOST = 3, 28


def show_window(console: Console, name: str, percent: float, whole: Window, parts: Sequence[Window]) -> None:
    """Print where the device works and where it fits the person, with their ends, and the window of each part."""
    console.print(f"[bold]{escape(name)}[/]: sizes that work. The job is at {percent:.4g} %.")
    rows = [("as it is", whole.go), ("with work", whole.workable)]
    rows += [] if whole.person is None else [("person", whole.person)]
    for title, reach in rows:
        console.print(f"\n{title:10}{reach_words(reach)}", markup=False)
        console.print(f"{'':10}{bar(reach, percent)}", markup=False)
        _ends(console, reach)
    table = Table(title=f"\nEach part alone, {LOW:g} to {HIGH:g} %", title_justify="left", box=None)
    longest = max((len(part.part) for part in parts), default=0)
    table.add_column("part", overflow="fold", min_width=max(14, min(longest, NAME_MOST)), max_width=NAME_MOST)
    table.add_column("", no_wrap=True)
    table.add_column("works at", overflow="fold")
    cells = CELLS - 12 - max(0, min(longest, NAME_MOST) - 20)
    for part in parts:
        table.add_row(escape(part.part), bar(part.workable, percent, cells), reach_words(part.workable))
    console.print(table)
    console.print("# works   . does not   | the job's size", markup=False)


def show_limits(console: Console, percent: float, features: Sequence[tuple[str, Window]]) -> None:
    """Print every feature that ends anywhere: its bar, and its spans."""
    table = Table(title="\nEvery feature that sets a limit", title_justify="left", box=None)
    table.add_column("part: feature", overflow="fold", max_width=24)
    table.add_column("", no_wrap=True)
    table.add_column("works at", overflow="fold")
    for feature, one in features:
        name = f"{one.part}: {feature}" if one.part else feature
        table.add_row(escape(name), bar(one.workable, percent, CELLS - 20), reach_words(one.workable))
    console.print(table)


def show_widenings(console: Console, percent: float, whole: Window, steps: Sequence[Widening]) -> None:
    """Print the nearest size that works, and what would widen the window most."""
    nearest = nearest_percent(whole.passes, percent)
    if nearest is not None and nearest != percent:
        console.print(f"\nNearest size that works: {nearest:.4g} %", markup=False)
    if not steps:
        return
    table = Table(title="\nWhat would allow more sizes, each alone", title_justify="left", box=None, expand=True)
    table.add_column("do this", overflow="fold", ratio=5)
    table.add_column("then works at", overflow="fold", ratio=3)
    table.add_column("% points", justify="right", no_wrap=True)
    for step in steps:
        reaches = "; includes the job's size" if step.reaches else ""
        table.add_row(escape(step.told), interval_words(step.interval) + reaches, f"{step.gain_percent:+.1f}")
    console.print(table)


def bar(reach: Reach, percent: float, cells: int = CELLS) -> str:
    """Return the intervals as a bar of characters."""
    step = (HIGH - LOW) / cells
    here = (percent - LOW) // step
    marks = []
    for index in range(cells):
        middle = LOW + (index + 0.5) * step
        works = any(
            (i.low_percent is None or i.low_percent <= middle) and (i.high_percent is None or middle <= i.high_percent)
            for i in reach.intervals
        )
        marks.append("|" if index == here else "#" if works else ".")
    return "".join(marks)


def _ends(console: Console, reach: Reach) -> None:
    """Print what ends the nearest interval, or what fails where there is none."""
    if reach.nearest is None:
        for finding in reach.until[:3]:
            console.print(_indented(f"unknown until: {finding.question or finding.why} ({finding.part or 'job'})"))
        ends = [one for one in reach.causes if not reach.until or one.verdict is Verdict.NO_GO]
        told = [f"{_fails(finding)}: {_cause(finding)}" for finding in ends]
        for line in list(dict.fromkeys(told))[:CAUSES_MOST]:  # bores alike say the same
            console.print(_indented(line))
        return
    for where, cause in (("not smaller", reach.nearest.low_cause), ("not larger", reach.nearest.high_cause)):
        if cause is not None:
            console.print(_indented(f"{where}: {_cause(cause)}"))


def _fails(finding: Finding) -> str:
    """Return whether something fails, is not known, or needs work."""
    return {Verdict.NO_GO: "fails", Verdict.HOLD: "not known"}.get(finding.verdict, "needs work")


def _cause(finding: Finding) -> str:
    """Return a finding in one line."""
    return f"{finding.part or 'job'}: {finding.why}"


def _indented(text: str) -> Padding:
    """Return a text below the bars, all its lines indented."""
    return Padding(Text(text), (0, 0, 0, INDENT_N))

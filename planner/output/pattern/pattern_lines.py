"""Patterns in a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from planner.finding import worst
from planner.output.pattern.pattern_files import PatternFiles
from planner.output.pattern.pattern_words import BUCK_CAUTION, dart_words, mark_words, method_words, size_words
from planner.output.terminal.finding_list import entry
from planner.output.words.few_lines import wrapped
from planner.output.words.paper_words import percent
from planner.pattern import Pattern
from planner.plan import PaddingPatterns


def pattern_lines(found: PaddingPatterns, pdf: Path, files: Sequence[PatternFiles]) -> Iterator[str]:
    """Yield the lines of ``fitwright pattern``, each at most 80 columns wide but for paths."""
    verdict = worst(found.findings)
    title = f"{found.job.name}: padding patterns at {percent(found.percent)}"
    yield from wrapped(title, first=f"{verdict.value.upper()}  ", rest="  ")
    for finding in found.findings:
        if not finding.verdict.passes:
            yield from entry(finding)
    for one, each in zip(found.patterns, files, strict=True):
        yield ""
        yield from _pattern(one, each)
    yield ""
    yield f"To print at 100 % on paper: {pdf}"
    if any(one.buck is not None for one in found.patterns):
        yield from wrapped(BUCK_CAUTION)


def _pattern(one: Pattern, files: PatternFiles) -> Iterator[str]:
    """Yield what is known of one pattern."""
    yield f"PADDING OF {one.part}"
    if one.flat is None:
        yield from wrapped("no pattern: see above", first="  ", rest="    ")
        return
    yield from wrapped(f"{size_words(one, one.flat)}", first="  ", rest="    ")
    yield from wrapped(method_words(one.flat), first="  ", rest="    ")
    yield from wrapped(f"on {one.found_by}", first="  ", rest="    ")
    if one.flat.marks:
        yield from wrapped(mark_words(one.flat), first="  ", rest="    ")
    if one.flat.darts:
        yield from wrapped(dart_words(one.flat), first="  ", rest="    ")
    yield f"  {files.svg}"
    yield f"  {files.dxf}"
    if files.buck is not None:
        bed = ": larger than the printer's bed, to be cut or printed elsewhere" if one.bed_too_small else ""
        ease = f", {one.ease_mm:g} mm of ease left round the limb" if one.ease_mm else ""
        yield f"  {files.buck} (forming buck{ease}{bed})"
    elif one.no_buck:
        yield from wrapped(f"no buck: {one.no_buck}", first="  ", rest="    ")

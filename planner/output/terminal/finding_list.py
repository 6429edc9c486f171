"""Findings in a terminal: a sign, where, what was found, and below it what to do; no name is broken in two."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.text import Text

from planner.finding import Finding, Verdict
from planner.output.words.few_lines import CUT, wrapped

SIGN_N = 6
"""Columns of the sign before each finding."""
SIGNS = {Verdict.GO: "ok", Verdict.GO_WITH_WORK: "work", Verdict.HOLD: "hold", Verdict.NO_GO: "no"}
STYLES = {Verdict.GO: "default", Verdict.GO_WITH_WORK: "cyan", Verdict.HOLD: "yellow", Verdict.NO_GO: "bold red"}
_BY_SIGN = {SIGNS[verdict].ljust(SIGN_N): style for verdict, style in STYLES.items()}
NUMBER = re.compile(r" \(--do \d+\)$")
TRIED_LINES = 2
"""So many lines more tell what was tried where nothing helps."""
_INDENT = " " * SIGN_N
WAIT = "Do nothing yet"
"""What stands above findings that say only "if"."""


def waits(finding: Finding) -> bool:
    """Return whether a finding says only what would have to be done under some answers."""
    return finding.verdict is not Verdict.GO and bool(finding.question_id)


def entry(finding: Finding, also: str = "", *, where: str = "", lines_n: int | None = None) -> tuple[str, ...]:
    """Return the lines of one finding.

    ``also`` says where else it is so, ``where`` stands instead of the part's name, ``lines_n`` cuts what was found.
    """
    what = _led(where, finding.why) if where else f"{finding.part or 'the job'}: {finding.why}"
    sign = SIGNS[finding.verdict].ljust(SIGN_N)
    found = wrapped(what, first=sign, rest=_INDENT, lines_n=lines_n)
    more = wrapped(also, first=_INDENT, rest=_INDENT, lines_n=lines_n) if also else ()
    cure = finding.remedy or finding.caution
    todo = _cured(cure, finding.part, lines_n and max(lines_n - 1, 1)) if cure else ()
    return (*found, *more, *todo)


def _led(where: str, why: str) -> str:
    """Return what was found after where; what both begin with is said once.

    >>> _led("pull cord", "pull cord needs 9 mm"), _led("screw in b1", "screw: it is wide"), _led("bed", "it fits")
    ('pull cord needs 9 mm', 'screw in b1: it is wide', 'bed: it fits')
    """
    bare = why.removeprefix("the ")
    if bare.startswith((f"{where} ", f"{where}:", f"{where} of ")):
        return why
    lead, colon, rest = why.partition(": ")
    return f"{where}: {rest}" if colon and where.startswith(f"{lead} ") else f"{where}: {why}"


def _cured(cure: str, part: str, lines_n: int | None) -> tuple[str, ...]:
    """Return the lines of what to do; ways that failed are told by name only where there is room for all of them."""
    first, (head, _, tried) = " " * (SIGN_N - 3) + "-> ", cure.partition(" (tried: ")
    whole = wrapped(cure, first=first, rest=_INDENT)
    if lines_n is None or len(whole) <= lines_n:
        return whole
    number = NUMBER.search(cure)
    if number:  # the number does all of it, so it is never cut
        words = cure[: number.start()].split()
        while len(whole) > lines_n:
            words.pop()
            whole = wrapped(f"{' '.join(words)}{CUT}{number[0]}", first=first, rest=_INDENT)
        return whole
    if not tried:
        return wrapped(cure, first=first, rest=_INDENT, lines_n=lines_n)
    ways = tried.removesuffix(")").split("; ")
    for n in range(len(ways), 0, -1):
        more = f"; more: --part {part}" if n < len(ways) and part else ""
        told = wrapped(f"{head} (tried: {'; '.join(ways[:n])}{more})", first=first, rest=_INDENT)
        if len(told) <= lines_n + TRIED_LINES:
            return told
    return wrapped(f"{head} (tried: --part {part})" if part else head, first=first, rest=_INDENT, lines_n=lines_n)


def finding_list(findings: Sequence[Finding], title: str) -> Text:
    """Return findings below a title; those that differ only in their feature share an entry."""
    lines = [title]
    for finding, more in _grouped(findings):
        lines += entry(finding, f"{more} more like it" if more else "")
    return styled(lines)


def styled(lines: Iterable[str]) -> Text:
    """Return lines coloured by the sign of the finding that they belong to."""
    text, style = Text(), "default"
    for line in lines:
        style = _BY_SIGN.get(line[:SIGN_N], style if line.startswith(" ") else "default")
        text.append(line + "\n", style=style)
    text.rstrip()
    return text


def show_lines(console: Console, lines: Iterable[str]) -> None:
    """Print lines that are wrapped already, as they are."""
    console.print(styled(lines), soft_wrap=True)


def _grouped(findings: Sequence[Finding]) -> list[tuple[Finding, int]]:
    """Return each kind of finding once, with how many more there are."""
    groups: dict[tuple[object, ...], list[Finding]] = {}
    for finding in findings:
        key = (finding.rule, finding.part, finding.verdict, finding.remedy, f"{finding.measured or 0:.2f}")
        groups.setdefault(key, []).append(finding)
    return [(group[0], len(group) - 1) for group in groups.values()]

"""The stations of the card: what each of them judges, and the line of all stations at the top."""

from __future__ import annotations

from planner.finding import Finding, Verdict, worst
from planner.job import kind_of
from planner.output.papers.function_test import trials_of
from planner.phrases import plural
from planner.plan import Plan

Stop = tuple[int, str, str, str, Verdict | None]
"""Number, anchor, title, a few words, and the verdict where the station judges anything."""


def by_station(plan: Plan) -> dict[str, tuple[Finding, ...]]:
    """Return the findings of each station that judges, worst first.

    ``size`` and ``fit`` are what a check asks at any scale; whatever else was found is ``print``: it speaks of
    settings, plates, spools and the calendar, at the planned size only.
    """
    found: dict[str, list[Finding]] = {"size": [], "fit": [], "print": []}
    for finding in plan.findings:
        found[kind_of(finding.rule).station].append(finding)
    return {station: tuple(findings) for station, findings in found.items()}


def stops(plan: Plan, verdicts: dict[str, Verdict], words: dict[Verdict, tuple[str, str]]) -> list[Stop]:
    """Return the line of all stations, each with a few words."""
    work = plan.works_n
    pieces = sum(line.count for line in plan.hardware if not line.printed)
    tests = len(trials_of(plan))
    return [
        (1, "size", "Size", words[verdicts["size"]][0], verdicts["size"]),
        (2, "fit", "Fit", words[verdicts["fit"]][0], verdicts["fit"]),
        (3, "print", "Print", words[verdicts["print"]][0], verdicts["print"]),
        (4, "finish", "Finish", f"{work} to drill or change" if work else "cleaning only", None),
        (5, "assemble", "Assemble", f"{plural(pieces, 'piece')} to buy", None),
        (6, "test", "Test", plural(tests, "test"), None),
        (7, "hand-over", "Hand over", "not released", None),
    ]


def verdicts_of(found: dict[str, tuple[Finding, ...]]) -> dict[str, Verdict]:
    """Return the verdict of every station that judges."""
    return {station: worst(findings) for station, findings in found.items()}

"""Judged there: what the plates answer, by the printers that run them and by their proof."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from planner.finding import Finding, Verdict, by_severity, worst
from planner.job import Job, printer_named
from planner.packing import Plate
from planner.rules import Checked, Rule, questions_of

BY_PRINTER = (
    "bore.tight",
    "bore.loose",
    "bore.edge",
    "seat.tight",
    "gap.tight",
    "gap.loose",
    "channel.tight",
    "slot.tight",
)
"""Rules that ask the printer: how much smaller its bores print, and which gap it keeps open."""


def judged_there(
    job: Job, checked: Checked, plates: Sequence[Plate], rules_on: Callable[[Job], Sequence[Rule]]
) -> Checked:
    """Return what was checked, with the answers about a part by the printers that its plates are for.

    ``rules_on`` binds the rules of a job. A part that lies on several printers has the answers of the one that
    judges it worst; the job's own where none is worse.
    """
    own, scale = job.printer.name, checked.scale_percent / 100.0
    where: dict[str, set[str]] = {}
    for plate in plates:
        for placement in plate.placements:
            where.setdefault(placement.part, set()).add(plate.printer or own)
    others = sorted({name for names in where.values() for name in names} - {own})
    if not others:
        return checked
    known = {own: list(checked.findings)}
    for name in others:
        rules = rules_on(replace(job, printer=printer_named(job, name)))
        known[name] = [_named(rule.at(scale), name) for rule in rules if rule.rule in BY_PRINTER]
    kept = [f for f in checked.findings if not _asked(f) or where.get(f.part, {own}) == {own}]
    for part, names in sorted(where.items()):
        if names != {own}:
            answers = [
                [f for f in known[name] if f.part == part and _asked(f)] for name in sorted(names, key=_own_first(own))
            ]
            kept += max(answers, key=lambda found: worst(found).severity)
    findings = by_severity(kept)
    return replace(checked, findings=findings, verdict=worst(findings), questions=questions_of(findings))


def laid_past_zones(job: Job, checked: Checked, plates: Sequence[Plate]) -> Checked:
    """Return what was checked, with the holds about zones and notches of a bed answered by the plates.

    The bed rule looks for a clear convex piece and leaves open whether a part can lie past what is kept clear; where
    all its copies lie on proved plates, they can.
    """
    on: dict[str, list[int]] = {}
    for plate in plates:
        for placement in plate.placements:
            on.setdefault(placement.part, []).append(plate.number)

    def answered(finding: Finding) -> Finding:
        lies = on.get(finding.part, [])
        if finding.rule != "bed.over" or finding.verdict is not Verdict.HOLD:
            return finding
        if len(lies) < job.part(finding.part).printed_n:
            return finding
        told = ", ".join(str(number) for number in sorted(set(lies)))
        why = f"it lies past what is kept clear of the bed: plate {told} is proved on its true outline"
        return replace(finding, verdict=Verdict.GO, why=why, remedy="", source="proof of every plate")

    findings = by_severity(answered(finding) for finding in checked.findings)
    return replace(checked, findings=findings, verdict=worst(findings), questions=questions_of(findings))


def _asked(finding: Finding) -> bool:
    """Return whether a finding depends on the printer."""
    return finding.rule in BY_PRINTER


def _own_first(own: str) -> Callable[[str], tuple[bool, str]]:
    """Return the order of printers in which the job's own comes first: of equally bad answers the first counts."""
    return lambda name: (name != own, name)


def _named(finding: Finding, printer: str) -> Finding:
    """Return a finding that names the printer it is about."""
    return replace(
        finding,
        why=f"on {printer}: {finding.why}",
        question=finding.question.replace("this printer", printer),
    )

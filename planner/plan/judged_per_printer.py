"""Judged per printer: rules that ask a printer are asked of the printers on which the plates really run."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from planner.finding import Finding, Verdict, worst
from planner.job import Job, kind_of, printer_named
from planner.packing import Plate
from planner.phrases import listed
from planner.rules import BoundRules, Checked, check

JOB = ""
"""The part of a finding that speaks of the whole job."""


def fit_per_printer(
    job: Job, checked: Checked, plates: Sequence[Plate], bound_on: Callable[[Job], BoundRules]
) -> Checked:
    """Return what was checked, with the answers about a part by the printers that its plates are for.

    ``bound_on`` binds the rules of fit of a job, here the same job with another printer as its own, with what they
    rest on.
    """

    def judge(other: Job) -> Sequence[Finding]:
        return check(bound_on(other), checked.scale_percent).findings

    return checked.with_findings(per_printer(job, checked.findings, plates, judge))


def per_printer(
    job: Job, own_answers: Sequence[Finding], plates: Sequence[Plate], judge: Callable[[Job], Sequence[Finding]]
) -> tuple[Finding, ...]:
    """Return findings with those that depend on the printer asked of every printer that has plates.

    A part that lies on several printers has the answers of the one that judges it worst, the job's own where none is
    worse. What speaks of the whole job, such as the flow of a line, is told for each of them that does not pass it
    without a word; where all do, once.

    Parameters
    ----------
    own_answers
        What was found with the job's own printer.
    judge
        Returns the findings of the job with another printer as its own.
    """
    return per_printer_of_parts(job, own_answers, _printers_of_parts(plates, job.printer.name), judge)


def per_printer_of_parts(
    job: Job,
    own_answers: Sequence[Finding],
    where: Mapping[str, set[str]],
    judge: Callable[[Job], Sequence[Finding]],
) -> tuple[Finding, ...]:
    """Return findings as :func:`per_printer` does, for parts whose printers are given by name."""
    own = job.printer.name
    used = sorted({name for names in where.values() for name in names}, key=_own_first(own))
    if not used or used == [own]:
        return tuple(own_answers)
    answers = {
        name: [f for f in judge(replace(job, printer=printer_named(job, name))) if _by_printer(f)]
        for name in used
        if name != own
    }
    answers[own] = [finding for finding in own_answers if _by_printer(finding)]
    kept = [f for f in own_answers if not _by_printer(f) or (f.part != JOB and where.get(f.part, {own}) == {own})]
    for part, names in sorted(where.items()):
        if names != {own}:
            about = {name: [f for f in answers[name] if f.part == part] for name in used if name in names}
            name = max(about, key=lambda each: worst(about[each]).severity)
            kept += about[name] if name == own else [_named(finding, [name]) for finding in about[name]]
    return (*kept, *_of_job({name: [f for f in answers[name] if f.part == JOB] for name in used}, own))


def _printers_of_parts(plates: Sequence[Plate], own: str) -> dict[str, set[str]]:
    """Return the printers on which each part lies."""
    where: dict[str, set[str]] = {}
    for plate in plates:
        for placement in plate.placements:
            where.setdefault(placement.part, set()).add(plate.printer or own)
    return where


def _of_job(answers: Mapping[str, Sequence[Finding]], own: str) -> list[Finding]:
    """Return what several printers answer about the whole job: every objection, else the first one's answer.

    An answer names its printers, unless only the job's own gives it, or all do and the job's own is one of them.
    """
    by_rule: dict[tuple[str, str], dict[str, list[Finding]]] = {}
    for name, found in answers.items():
        for finding in found:
            by_rule.setdefault((finding.rule, finding.feature), {}).setdefault(name, []).append(finding)
    kept: list[Finding] = []
    for same in by_rule.values():
        alike: dict[Finding, list[str]] = {}
        for name, found in same.items():
            for finding in found:
                alike.setdefault(finding, []).append(name)
        objects = {f: names for f, names in alike.items() if f.verdict is not Verdict.GO or f.caution}
        for finding, names in (objects or dict(list(alike.items())[:1])).items():
            plain = own in names and len(names) in (1, len(answers))
            kept.append(finding if plain else _named(finding, names))
    return kept


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
        if finding.verdict is not Verdict.HOLD or kind_of(finding.rule).gives != "bed":
            return finding
        if len(lies) < job.part(finding.part).printed_n:
            return finding
        told = listed(str(number) for number in sorted(set(lies)))
        why = f"it lies beside the zones that stay clear: plate {told} was proved on its true outline"
        return replace(finding, verdict=Verdict.GO, why=why, remedy="", source="proof of every plate")

    return checked.with_findings(answered(finding) for finding in checked.findings)


def _by_printer(finding: Finding) -> bool:
    """Return whether a finding depends on the printer, and not only on whether a plate holds the part."""
    asks = kind_of(finding.rule).asks
    return "printer" in asks and "layout" not in asks


def _own_first(own: str) -> Callable[[str], tuple[bool, str]]:
    """Return the order of printers in which the job's own comes first: of equally bad answers the first counts."""
    return lambda name: (name != own, name)


def _named(finding: Finding, printers: Sequence[str]) -> Finding:
    """Return a finding that names the printers it is about."""
    names = listed(printers)
    question = finding.question.replace("this printer", names)
    return replace(finding, why=f"on {names}: {finding.why}", question=question)

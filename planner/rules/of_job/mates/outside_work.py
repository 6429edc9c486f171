"""Work on the outside of parts that the job states: what it comes to for each fit, and the rule that lists it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from planner.assembly import CloseFit
from planner.finding import Finding, Verdict
from planner.job import HandWork, Job
from planner.rules.fit.bores.outside_done import OutsideDone
from planner.rules.of_job.own_scale import own_factor
from planner.rules.rule import ConstantFinding, Rule
from planner.survey import Peg, Survey


def sanded_mm(job: Job, part: str, peg: Peg, into: str) -> float | None:
    """Return how thick a peg is at most, where it lies in a part, after the work that the job states; None for none."""
    mine = (work for work in job.works if _on_peg(job, work, part, peg) and work.into in ("", into))
    return min((work.to_mm for work in mine), default=None)


def filed_mm(job: Job, fit: CloseFit) -> float | None:
    """Return how wide a part is at most, between faces, after the work that the job states; None for none."""
    return min((work.to_mm for work in job.works if _on_fit(job, work, fit)), default=None)


def outside_rules(job: Job, surveys: Mapping[str, Survey], close: Sequence[CloseFit]) -> Iterator[Rule]:
    """Yield a rule for every peg that is sanded and every width that is filed, and a hold for what no part has."""
    limit = job.limits.of("bearing.peg", "sand_mm")
    for work in job.works:
        if work.on_bores:
            continue
        pegs = [peg for peg in surveys[work.part].pegs if _on_peg(job, work, work.part, peg)]
        fits = [fit for fit in close if _on_fit(job, work, fit)][:1]
        places = [(peg.id, peg.diameter_mm, peg.axis, peg.centre_mm, peg.flats_n > 0) for peg in pegs]
        places += [(f"in {fit.outer}", fit.width_mm, fit.way, fit.at_mm, False) for fit in fits]
        missed = set(work.pegs) - {peg.id for peg in pegs}
        if missed or not places:
            yield ConstantFinding(finding=_missing(work, missed), feature=work.told)
        for feature, drawn_mm, way, at_mm, flat in places:
            yield OutsideDone(
                part=work.part,
                feature=feature,
                drawn_mm=drawn_mm,
                at_mm=at_mm,
                work=work,
                most_mm=limit,
                flat=flat,
                factor=own_factor(job.part(work.part), way, widest=True),
            )


def _like(job: Job, work: HandWork, drawn_mm: float) -> bool:
    """Return whether work speaks of what is drawn so wide."""
    slack = job.limits.bore_match_percent.value / 100.0
    return work.drawn_mm is not None and abs(drawn_mm - work.drawn_mm) <= slack * work.drawn_mm + 1e-9


def _on_peg(job: Job, work: HandWork, part: str, peg: Peg) -> bool:
    """Return whether work is done on a peg."""
    mine = work.kind == "sand" and work.part == part
    return mine and (peg.id in work.pegs or _like(job, work, peg.diameter_mm))


def _on_fit(job: Job, work: HandWork, fit: CloseFit) -> bool:
    """Return whether work is done on a part where it lies between faces."""
    mine = work.kind == "file" and (work.part, work.into) == (fit.inner, fit.outer)
    return mine and _like(job, work, fit.width_mm)


def _missing(work: HandWork, missed: set[str]) -> Finding:
    """Say that a part has not what some work is stated for."""
    if work.kind == "file":
        lacks = f"nowhere lies {work.drawn_mm:g} mm wide between faces of {work.into}"
        ask = f"Where is {work.part} filed, as drawn in {work.into}?"
    else:
        named = ", ".join(sorted(missed)) or f"of {work.drawn_mm:g} mm"
        lacks, ask = f"has no peg {named}", f"Which peg of {work.part} is meant: {work.told}?"
    return Finding(
        rule="work.missing",
        part=work.part,
        feature=work.told,
        verdict=Verdict.HOLD,
        why=f"the job says {work.told}, and {work.part} {lacks}",
        remedy="state a width that between.tight tells, as drawn"
        if work.kind == "file"
        else "name its pegs as fitwright inspect lists them",
        source="job file against the survey of the mesh",
        question=ask,
    )

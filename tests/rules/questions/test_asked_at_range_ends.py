"""What a finding rests on: a range that changes the verdict, what a mesh shows, or what a person wrote."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Evidence, Finding, Verdict
from planner.job import Job
from planner.rules.questions.asked_at_range_ends import resting
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


def test_a_finding_rests_on_the_weakest_input_that_decides(make_job: MakeJob) -> None:
    """Softening at 80 to 85 °C: over 82 its range decides; over 90 it does not, for the job or for a part."""

    def ask(job: Job) -> list[Finding]:
        softens = job.materials[0].softens_c.value
        return [
            Finding(
                rule="bed.soft",
                part=part,
                verdict=Verdict.HOLD if softens < limit else Verdict.GO,
                why="",
                feature=name,
            )
            for name, limit, part in (("near", 82.0, ""), ("far", 90.0, ""), ("far", 90.0, "a"))
        ]

    found = resting(make_job(TEXT, a=cuboid(20, 20, 20)), ask)

    assert [finding.evidence for finding in found] == [Evidence.USUAL, Evidence.STATED, Evidence.MEASURED]


def test_what_hangs_on_a_guess_stays_so(make_job: MakeJob) -> None:
    """A guess is weaker than any range."""
    guessed = Finding(rule="bed.soft", part="", verdict=Verdict.GO, why="", evidence=Evidence.GUESSED)

    assert resting(make_job(TEXT, a=cuboid(20, 20, 20)), lambda _: [replace(guessed)]) == (guessed,)

"""``size.side``: which parts are mirrored for the side that the device is worn on, and whether that side is known."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.job import Job
from planner.phrases import listed


def sides(job: Job) -> list[Finding]:
    """Say what is mirrored; a hold where a handed part is left or right and only one of both sides is stated.

    Nothing is said of a job without handed parts and without sides.
    """
    worn, drawn = job.size.side, job.size.drawn_for
    handed = [part.name for part in job.parts if part.handed]
    if not handed and worn == drawn:
        return []
    names = listed(handed)
    verdict, caution, question, remedy = Verdict.GO, "", "", ""
    if worn is None and drawn is None:
        why = f"no side is stated: {names} will be printed as drawn"
        caution = f"Left and right differ for {names}: state both sides, or make sure that the drawn one is meant."
        question = "Which side is the device worn on, and for which is it drawn?"
    elif handed and None in (worn, drawn):
        verdict, remedy = Verdict.HOLD, "state both side and drawn_for in [size]"
        missing = "side it is worn on" if worn is None else "side the meshes are drawn for"
        why = f"left and right differ for {names}, and the {missing} is not stated"
        question = f"Which is the {missing}?"
    elif not handed:
        why = f"worn on {worn or 'a side not stated'}, drawn for {drawn or 'a side not stated'}: no part is handed"
        caution = "Nothing is mirrored: set handed = true for each part that differs between left and right."
    elif job.size.mirrored:
        why = f"worn on the {worn}, drawn for the {drawn}: {names} will be mirrored"
        caution = f"Look at {names}: mirrored text reads backward, and a printed thread turns the other way."
    else:
        why = f"drawn for the {drawn} and worn on the {drawn}: nothing is mirrored"
    return [
        Finding(
            rule="size.side",
            part="",
            feature="side",
            verdict=verdict,
            why=why,
            remedy=remedy,
            source="job file",
            caution=caution,
            question=question,
        )
    ]

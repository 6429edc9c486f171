"""A free nut, or a post's other half, goes on from behind: a blind bore lets neither in."""

from __future__ import annotations

from collections.abc import Sequence

from planner.assembly.claim import Claim
from planner.finding import Finding, Verdict
from planner.job import Job


def blind_findings(job: Job, claims: Sequence[Claim]) -> list[Finding]:
    """Judge the bores of screws with a free nut and of posts, ``screw.unheld``: a hold where one is blind."""
    found = []
    for screw in job.hardware:
        post = screw.kind == "binding-post"
        if not post and screw.nut is None:
            continue
        for part in dict.fromkeys(screw.joins if post else screw.joins[-1:]):
            mine = [one for one in claims if one.hardware is screw and one.part == part and not one.or_else]
            blind = [one.bore.id for one in mine if not one.bore.through]
            if blind:
                found.append(_blind(screw.name, part, blind, "its other half" if post else "a nut"))
    return found


def _blind(name: str, part: str, bores: Sequence[str], what: str) -> Finding:
    """Hold one kind of hardware in the blind bores of one part."""
    listed = ", ".join(bores)
    return Finding(
        rule="screw.unheld",
        part=part,
        feature=f"{name} in blind bores",
        verdict=Verdict.HOLD,
        measured=float(len(bores)),
        limit=0.0,
        unit="bores",
        why=f"{listed} of {part} is blind, so {what} cannot go on {name} from behind",
        remedy="draw the bore through, or hold the screw by an insert, a nut in a pocket or a pilot that it cuts",
        source="survey of the mesh",
        question=f"How does {what} come onto {name} behind {listed} of {part}?",
    )

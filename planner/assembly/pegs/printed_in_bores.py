"""Parts that are printed as hardware, in the bores that the hardware claims: both grow with the device."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.assembly.claim import Claim
from planner.assembly.pegs.pegs_in_bores import PegInBore, alike, lies_in
from planner.job import Fit, Hardware, Job, JointKind
from planner.survey import Peg, Survey

JOINT_OF: Mapping[Fit, JointKind] = {"turning": "turns", "sliding": "slides", "held": "pressed"}
"""How two parts meet where one goes into the other with a fit."""


def printed_in_bores(
    job: Job, claims: Sequence[Claim], surveys: Mapping[str, Survey]
) -> dict[tuple[str, str], PegInBore]:
    """Return the peg in every bore, by part and bore, that a part printed as hardware goes into.

    Only where that part follows the job's scale, is drawn as thick as its hardware is stated, and the bore is drawn
    for it: what is thicker or thinner than stated, or has a scale of its own, is judged as hardware that keeps its
    size.
    """
    shared = Counter((claim.part, claim.bore.id) for claim in claims)
    found = {}
    for claim in claims:
        key, name, joint = (claim.part, claim.bore.id), claim.hardware.printed, JOINT_OF.get(claim.fit)
        if not name or joint is None or claim.or_else or shared[key] > 1:
            continue
        owner, part = job.part(name), job.part(claim.part)
        peg = _shaft(surveys[name], claim.hardware.diameter_mm, job.limits.oval_percent.value / 100.0)
        if peg is None or owner.scale_percent is not None or not alike(claim.bore, peg):
            continue
        single = owner.count == part.count == 1 and part.scale_percent is None
        found[key] = PegInBore(
            part=claim.part,
            bore=claim.bore,
            peg_part=name,
            peg=peg,
            in_place=single and lies_in(peg, claim.bore),
            how=joint,
            named=True,
        )
    return found


def grown(hardware: Hardware, factors: Mapping[str, float]) -> Hardware:
    """Return a piece as thick as it is at scale: what is bought keeps its size, a printed pin grows with its part.

    ``factors`` are the scales of parts, by name; a part that it does not name is as drawn.
    """
    factor = factors.get(hardware.printed)
    return hardware if factor is None else replace(hardware, diameter_mm=hardware.diameter_mm * factor)


def _shaft(survey: Survey, diameter_mm: float, near: float) -> Peg | None:
    """Return the longest round matter of a part that is as thick as stated, within a share; None where none is."""
    like = [peg for peg in survey.pegs if abs(peg.diameter_mm - diameter_mm) <= near * diameter_mm]
    return max(like, key=lambda peg: peg.length_mm, default=None)

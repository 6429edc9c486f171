"""``stated.differs``: a size that a person stated and that the mesh contradicts, with both numbers and a question."""

from __future__ import annotations

from planner.finding import Finding, Vec3, Verdict
from planner.rules.rule import ConstantFinding


def differs(
    *,
    part: str,
    feature: str,
    what: str,
    key: str,
    stated_mm: float,
    measured_mm: float | None,
    at_mm: Vec3 | None = None,
    doubt: str = "",
) -> ConstantFinding:
    """Return the hold of a contradiction; what rests on that size is not judged until it is resolved.

    Parameters
    ----------
    what
        What a person would call the opening, such as ``"slot of the strap"``.
    key
        Key of the job file that states it.
    measured_mm
        The nearest that the mesh has; None where it has nothing like it.
    doubt
        What else may be meant, as the end of the question; empty for nothing.
    """
    if measured_mm is None:
        found, question = "the mesh has none", f"Where is the {what}, {stated_mm:g} mm, in {part} as drawn{doubt}?"
    else:
        found = f"the nearest in the mesh measures {measured_mm:.2f} mm"
        question = f"Is it {stated_mm:g} or {measured_mm:.2f} mm: the {what} in {part}{doubt}?"
    finding = Finding(
        rule="stated.differs",
        part=part,
        feature=feature,
        verdict=Verdict.HOLD,
        measured=measured_mm,
        limit=stated_mm,
        unit="mm",
        at_mm=at_mm,
        why=f"the job states {stated_mm:g} mm for the {what} in {part}; {found}: one of the two is wrong",
        remedy=f"measure it in the mesh and correct {key}, or check that {part} is drawn at the size of the others",
        source="job file against the survey of the mesh",
        question=question,
    )
    return ConstantFinding(finding=finding, feature=feature)

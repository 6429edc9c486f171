"""The hardest grip of a device: what its cords are screened under."""

from __future__ import annotations

from planner.job import Job
from planner.mechanism import Movement


def hung_n(job: Job) -> float:
    """Return the weight at the tip that all which carries it is screened under, in N."""
    return (job.use.carried_n or 0.0) if job.use.hang_n is None else job.use.hang_n


def hardest_grip(job: Job, movement: Movement | None, load_n: float) -> tuple[float, str]:
    """Return the hardest grip that cords are screened under, and what makes it, in words.

    What is wanted at the tip, or the weight that hangs there where nobody measured the pull; or what the pull builds up
    there that can be kept up, with the least friction and at the angle where it grips hardest: a hand that is not told
    to stop pulls on when the tip has closed.
    """
    wanted = load_n if job.use.grip_n is None else job.use.grip_n
    if job.use.pull_n is None:
        wanted = max(wanted, hung_n(job))  # nothing says that the hand yields before that
    kept = [] if movement is None else [one.grip_for_n for one in movement.cords_at(1.0).cords if one.grip_for_n]
    pull_n, *_, grip_n = max(kept, key=lambda one: one[-1], default=(0.0, 0.0))
    if grip_n <= wanted:
        return wanted, f"{wanted:g} N of grip at the tip"
    return grip_n, f"{pull_n:g} N of pull at the hand, {grip_n:.1f} N of grip at the tip"

"""The rules of strength of one job, from its parts under their loads."""

from __future__ import annotations

from collections.abc import Sequence

from planner.job import Job
from planner.pose import toward
from planner.rules import Rule, constants, go_share
from planner.strength.beam.beam_pass import KNOTS, Weakest
from planner.strength.judging.beam_share import BeamShare, own_factor
from planner.strength.judging.otherwise_printed import lying_otherwise
from planner.strength.screened import Screened
from planner.strength.unscreened import Unscreened, unscreened

CONTRADICTS_PERCENT = 80.0
"""A stated pose is told to speak against the load where another takes less than so much of it; no source."""
LEGS = "its load runs through legs side by side, and cuts do not tell how each bends: ask finite elements (--elements)"
LEGS_RATIO = 1.05
"""A doubt is told from so many times the share; no source."""


def strength_rules(job: Job, parts: Sequence[Screened]) -> tuple[Rule, ...]:
    """Return one rule for every part and kind of load; a hold where a part could not be screened."""
    rules: list[Rule] = []
    for one in parts:
        if one.weakest is None or one.case is None or one.stuff is None:
            rules += constants([unscreened(one.part, one.unknown or Unscreened.UNCUT, one.said)])
            continue
        strengths, by = one.stuff.strengths, one.elements
        ratio, elements = (1.0, False) if by is None else (by.ratio, by.ratio > 1.0)
        mpa_per_percent = one.weakest.stress_at_mpa(1.0)
        if by and elements:
            mpa_per_percent = by.stress_mpa / by.share_percent
        rules.append(
            BeamShare(
                part=one.part,
                loads=one.case.said,
                asks=one.case.asks,
                squared_percent=tuple(ratio * share for share in one.weakest.share_percent),
                at_mm=by.at_mm if by and elements else one.weakest.at_mm,
                direction=by.direction if by and elements else one.weakest.direction,
                mpa_per_percent=mpa_per_percent,
                lies=_lies(job, one),
                method="finite elements, notches in" if elements else _cuts(one.weakest),
                doubt=by.doubt if by else LEGS if one.weakest.legs_ratio > LEGS_RATIO else "",
                doubt_ratio=by.doubt_ratio if by else one.weakest.legs_ratio,
                notch_ratio=1.0 if by else one.weakest.notch_ratio,
                peel_ratio=_peel_ratio(one, ratio),
                peel_mm=one.peel.at_mm if one.peel else one.weakest.at_mm,
                peel_over=one.peel.over if one.peel else "",
                odd=one.odd,
                locks=one.locks,
                untold=one.untold,
                go=go_share(job, one.material),
                strength=f"{strengths.along_mpa:g} MPa along, {strengths.across_mpa:g} MPa across the layers",
                own_factor=own_factor(job, one.part),
            )
        )
    return tuple(rules)


def _peel_ratio(one: Screened, ratio: float) -> float:
    """Return how many times its share, ``ratio`` times that of its cuts, a part takes at a face that holds it.

    Elements leave out the surroundings of what holds a part, so that they do not tell either.
    """
    cut_percent = 0.0 if one.weakest is None else one.weakest.share_percent[KNOTS.index(1.0)]
    return one.peel.share_percent / (ratio * cut_percent) if one.peel and cut_percent > 0.0 else 0.0


def _cuts(weak: Weakest) -> str:
    """Say how cuts found it, and where one strip of a wide section takes up the load, how wide that is."""
    strip = f", over the {weak.spread_mm:.0f} mm of its drawn width that take the load up" if weak.spread_mm else ""
    return f"beam formulas{strip}"


def _lies(job: Job, one: Screened) -> str:
    """Say what the pose that tears a part's layers least would take, where the job states a pose that is worse."""
    best = lying_otherwise(one, 100.0)
    if job.part(one.part).pose is None or not best or best[0][0] > CONTRADICTS_PERCENT:
        return ""
    share, down = best[0]
    return f"the stated pose speaks against it: with {toward(down)} down it would take {share:.0f} % as much"

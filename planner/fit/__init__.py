"""Fit: whether it still works at this size, on this printer, with hardware that does not scale.

1. ``sizing(job, solids, today)`` gives the scale and its reason; ``choose_pose(part, survey)`` which way up.
2. ``rules_of(job, surveys, downs)`` binds every rule to every feature it speaks of.
3. ``check(bound, scale)`` asks them at a scale; ``window(rules, scale)`` solves the same rules for the scale.
4. ``with_guesses(job, surveys)`` fills in what a folder of meshes says by itself.
5. ``ways_of(job, solids, claims)`` says what stands in a driver's straight way, where parts are drawn in place.
6. ``rebored(job, solids, surveys, claims, downs, s)`` puts openings with hardware back to hardware size.
"""

from planner.fit.bed import bed_for
from planner.fit.bind import Bound, rules_of
from planner.fit.calibrated import calibration_findings
from planner.fit.check import QUESTIONS_MOST, Checked, check, questions_of
from planner.fit.claim import claims_of
from planner.fit.guess import with_guesses
from planner.fit.job_after import job_after
from planner.fit.mating import mating_graph, with_stacks
from planner.fit.pose import UPRIGHT_COS, PoseChoice, choose_pose, uprightness
from planner.fit.reach import Ways, ways_of
from planner.fit.rebore import Change, Rebored, rebored
from planner.fit.rule import Rule, lifted
from planner.fit.sizing import Sizing, sizing
from planner.fit.tried import Asked, tried_rules
from planner.fit.widen import Widening, nearest_percent, widenings
from planner.fit.window import Interval, Reach, Window, feature_windows, part_window, window

__all__ = [
    "QUESTIONS_MOST",
    "UPRIGHT_COS",
    "Asked",
    "Bound",
    "Change",
    "Checked",
    "Interval",
    "PoseChoice",
    "Reach",
    "Rebored",
    "Rule",
    "Sizing",
    "Ways",
    "Widening",
    "Window",
    "bed_for",
    "calibration_findings",
    "check",
    "choose_pose",
    "claims_of",
    "feature_windows",
    "job_after",
    "lifted",
    "mating_graph",
    "nearest_percent",
    "part_window",
    "questions_of",
    "rebored",
    "rules_of",
    "sizing",
    "tried_rules",
    "uprightness",
    "ways_of",
    "widenings",
    "window",
    "with_guesses",
    "with_stacks",
]

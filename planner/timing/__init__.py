"""Timing: what a plate costs when it may fail, and when each one runs.

1. ``risk_of(duration_s, mass_g, hazard)`` gives a plate's chance to fail and what that costs.
2. ``batch_of(kinds, counts, load, hazard)`` says whether its pieces are better printed on several plates.
3. ``timetable(loads, calendar=..., printers=...)`` finds the calendar, proves it, and plays it with failures.
4. ``leeways(steps)`` and ``placed_steps(steps, ...)`` put the hands' work behind it.
"""

from planner.timing.allowed import longest_run_min
from planner.timing.batch import Batch, CurvePoint, Load, batch_of
from planner.timing.changes import Change, changes
from planner.timing.checkpoint import Marks
from planner.timing.clocks import Clocks
from planner.timing.family import FamilyRatio, family_ratio
from planner.timing.forecast import Forecast, forecast
from planner.timing.gate import Gate, gate_of
from planner.timing.hazard import Hazard, Risk, expected_s, risk_of
from planner.timing.in_turn import left_after, risk_in_turn
from planner.timing.joint import Joint, JointJob, joint_calendar
from planner.timing.mishap import Mishap, go_on_s, judged
from planner.timing.prove import proved
from planner.timing.simulate import Chance, Played, played
from planner.timing.solve import TIMING_VERSION, solved, unmet
from planner.timing.split import Counts, Split, best_splits
from planner.timing.spools import Feed, Need, Reel, fed
from planner.timing.steps import Leeway, Step, StepRun, hands_min, leeways, placed_steps
from planner.timing.task import Answer, Placed, Shop, Task, finish_of
from planner.timing.timetable import PlateLoad, Timetable, shop_of, tasks_of, timetable
from planner.timing.tonight import tonight
from planner.timing.wall import Wall
from planner.timing.ways import Way, later_deadline, way_of, way_rank, ways_out

__all__ = [
    "TIMING_VERSION",
    "Answer",
    "Batch",
    "Chance",
    "Change",
    "Clocks",
    "Counts",
    "CurvePoint",
    "FamilyRatio",
    "Feed",
    "Forecast",
    "Gate",
    "Hazard",
    "Joint",
    "JointJob",
    "Leeway",
    "Load",
    "Marks",
    "Mishap",
    "Need",
    "Placed",
    "PlateLoad",
    "Played",
    "Reel",
    "Risk",
    "Shop",
    "Split",
    "Step",
    "StepRun",
    "Task",
    "Timetable",
    "Wall",
    "Way",
    "batch_of",
    "best_splits",
    "changes",
    "expected_s",
    "family_ratio",
    "fed",
    "finish_of",
    "forecast",
    "gate_of",
    "go_on_s",
    "hands_min",
    "joint_calendar",
    "judged",
    "later_deadline",
    "leeways",
    "left_after",
    "longest_run_min",
    "placed_steps",
    "played",
    "proved",
    "risk_in_turn",
    "risk_of",
    "shop_of",
    "solved",
    "tasks_of",
    "timetable",
    "tonight",
    "unmet",
    "way_of",
    "way_rank",
    "ways_out",
]

"""Schedule: what a plate costs when it may fail, and when the plates of all jobs run.

1. ``risk_of(duration_s, mass_g, hazard)`` gives a plate's chance to fail and what that costs.
2. ``batch_of(kinds, counts, load, hazard)`` says whether its pieces are better printed on several plates.
3. ``timetables(jobs)`` finds one schedule for all jobs, proves it, and simulates failures; one job is a list of one.
4. ``leeways(steps)`` and ``placed_steps(steps, ...)`` put the hands' work behind it.
5. ``ways_out(jobs, today)`` says what would bring late jobs forward.
6. ``coming_months(past, ends_min)`` plays the months to come from a chapter's history.
"""

from planner.schedule.calendar.allowed_starts import longest_run_min
from planner.schedule.calendar.coupon_gate import coupon_gate
from planner.schedule.calendar.forecast import Forecast, forecast, late_days_of
from planner.schedule.calendar.job_tasks import JobLoads, PlateLoad, reels_of_all, shop_of, tasks_of, wall_of
from planner.schedule.calendar.schedule_records import MOVES_A_DAY, Answer, PrintRun, Shop, Task, by_key, finish_of
from planner.schedule.calendar.schedule_terms import AIMS, Aim, Judge, ScheduleTerms
from planner.schedule.calendar.spool_records import Feed, Need, Reel
from planner.schedule.calendar.three_clocks import Clocks
from planner.schedule.calendar.timetable import Timetable, timetables
from planner.schedule.calendar.wall_clock import Wall
from planner.schedule.calendar.weekly_spans import spans_of as week_spans
from planner.schedule.hands.hand_steps import Step, StepRun, hands_min, leeways, placed_steps
from planner.schedule.hands.people import HandRun, Helper, JobHands, Staffed, hours_given, staffed
from planner.schedule.risk.checkpoint import Marks
from planner.schedule.risk.coming_months import DAY_MIN, SEED, Bench, Months, Past, coming_months
from planner.schedule.risk.failure_cost import Hazard, Risk, expected_s, risk_of
from planner.schedule.risk.failure_ratio import FamilyRatio, family_ratio
from planner.schedule.risk.finish_or_stop import Mishap, go_on_s, judged
from planner.schedule.risk.risk_one_by_one import risk_in_turn
from planner.schedule.risk.simulate import Chance, played
from planner.schedule.risk.split_search import Counts, best_splits
from planner.schedule.risk.split_tradeoff import Batch, CurvePoint, batch_of
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.solve import TIMING_VERSION, solved
from planner.schedule.solver.spool_feed import fed
from planner.schedule.ways_out.binding import Buy, Limits, limits
from planner.schedule.ways_out.job_changes import Change, Split, changes
from planner.schedule.ways_out.ways_out import Way, ways_out
from planner.schedule.ways_out.weighed import Feeding, MoreSpool, Planned, Situation

__all__ = [
    "AIMS",
    "DAY_MIN",
    "MOVES_A_DAY",
    "SEED",
    "TIMING_VERSION",
    "Aim",
    "Answer",
    "Batch",
    "Bench",
    "Buy",
    "Chance",
    "Change",
    "Clocks",
    "Counts",
    "CurvePoint",
    "FamilyRatio",
    "Feed",
    "Feeding",
    "Forecast",
    "HandRun",
    "Hazard",
    "Helper",
    "JobHands",
    "JobLoads",
    "Judge",
    "Limits",
    "Marks",
    "Mishap",
    "Months",
    "MoreSpool",
    "Need",
    "Past",
    "Planned",
    "PlateLoad",
    "PrintRun",
    "Reel",
    "Risk",
    "ScheduleTerms",
    "Shop",
    "Situation",
    "Split",
    "Staffed",
    "Step",
    "StepRun",
    "Task",
    "Timetable",
    "Wall",
    "Way",
    "batch_of",
    "best_splits",
    "by_key",
    "changes",
    "coming_months",
    "coupon_gate",
    "expected_s",
    "family_ratio",
    "fed",
    "finish_of",
    "forecast",
    "go_on_s",
    "hands_min",
    "hours_given",
    "judged",
    "late_days_of",
    "leeways",
    "limits",
    "longest_run_min",
    "placed_steps",
    "played",
    "proved",
    "reels_of_all",
    "risk_in_turn",
    "risk_of",
    "shop_of",
    "solved",
    "staffed",
    "tasks_of",
    "timetables",
    "wall_of",
    "ways_out",
    "week_spans",
]

"""Solve: as few days late as can be found, then every device ready early, then an early finish, then early ends.

That order stands in ``schedule_terms.AIMS``. Few plates go to the exact model at once, aim by aim. Many are first
spread over attended spans: limits on the finish are halved between what is proved impossible and what was found, and
the minutes are found for each spread. OR-Tools' CP-SAT runs with one worker, a seed and limits in its own deterministic
time, so that the same jobs get the same calendar.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.cache import kept, key_of
from planner.schedule.calendar.allowed_starts import clears_of, windows_of
from planner.schedule.calendar.schedule_records import Answer, Key, PrintRun, Shop, Task, by_key, finish_of
from planner.schedule.calendar.schedule_terms import Judge, ScheduleTerms, with_first_articles
from planner.schedule.calendar.unnumbered import Unnumbered
from planner.schedule.solver.calendar_proof import proved
from planner.schedule.solver.covering import Covering
from planner.schedule.solver.dispatch import TRIES_N, first_calendar, in_order
from planner.schedule.solver.made_room import lateness, moved_n
from planner.schedule.solver.minute_model import MinuteModel
from planner.schedule.solver.neighbourhoods import aim_by_aim, cleared_by, improved, no_later
from planner.schedule.solver.printer_swaps import in_preferred_order, with_fewer_losses
from planner.schedule.solver.reordered import AGAIN_N, of_many
from planner.schedule.solver.span_model import Spread, SpreadModel
from planner.schedule.solver.stays import as_it_stood

TIMING_VERSION = 19
"""Raised whenever calendars change, so that kept ones are not trusted."""
SEED = 20
EXACT_N = 8
"""Up to so many plates the exact model is asked at once."""
PROBE_EFFORT, MINUTES_EFFORT, EARLY_EFFORT, PROOF_EFFORT = 1.0, 0.4, 1.0, 1.5
"""Limits of single searches in the solver's deterministic time, about a second each on a desk computer."""
PATIENT_N, PATIENT_EFFORT, HELD_EFFORT = 24, 5.0, 2.0
"""Up to so many plates the exact model is asked where spreading leaves a wide gap, and its limit."""
CLOSE_SHARE = 0.005
"""Limits are halved until what was found is within this share of what is proved impossible."""
GOOD_SHARE = 0.03
MANY_N = 80
"""More plates than this are dispatched in many orders; the exact models would take minutes."""
BEGINS_N, RAISE_EFFORT, RAISE_NODES_N = 2, 0.3, 60
"""Begins of spans that are tried for a bound, the effort of each by logic, the nodes by branching."""
PROBES_N, QUICK_N, LIFTS_N = 6, 7, 5
COVER_NODES_N = 300
"""Nodes of the search for a covering; one takes a few hundredths of a second."""
LATE_ROUNDS_N, FINISH_ROUNDS_N, READY_ROUNDS_N = 16, 12, 8
"""Rounds in which some plates are placed again: for fewer days late, an earlier last end, devices ready sooner."""
SPARES_MIN = (0, 20, 45)
"""Left free in every span, in turn, where no minutes are found for a spread."""


def solved(tasks: Sequence[Task], shop: Shop, terms: Sequence[ScheduleTerms] = ()) -> Answer:
    """Return the best calendar found for tasks that each have a time somewhere, with a bound on the finish.

    ``terms`` are those of every job by its number; left out: nothing is due.

    Raises
    ------
    ValueError
        Where some plate has no time on any printer, or plates that stay together share no printer that has time for
        all.
    """
    asked = Unnumbered.of(tasks)
    tasks = in_order(asked.tasks)
    facts = [
        (
            (t.key, sorted(t.takes_min.items()), sorted(t.lost_min.items()), t.rank),
            (t.after, t.stay, t.watched, t.not_before_min, t.cleared_by_min, t.stood, t.reel),
        )
        for t in tasks
    ]
    key = key_of(TIMING_VERSION, facts, shop, tuple(terms))
    answer = kept("timing", key, Answer, lambda: _solved(tasks, Judge(terms, shop)))
    return replace(answer, placed=asked.numbered(answer.placed))


def unmet(tasks: Sequence[Task], shop: Shop) -> tuple[Key, ...]:
    """Return the plates that have no time on any printer, or no bed that anybody has the time to clear."""
    return tuple(t.key for t in tasks if not any(windows_of(t, p, shop) and clears_of(shop, p) for p in t.takes_min))


def _solved(asked: Sequence[Task], judge: Judge) -> Answer:
    """Solve few plates exactly, many by spreading."""
    if not asked:
        return Answer(placed=(), finish_min=0, bound_min=0)
    known = by_key(asked)
    stays = as_it_stood(asked, judge)
    if stays and not judge.score(stays, known)[0]:
        return Answer(placed=stays, finish_min=finish_of(stays, known), bound_min=_least(asked, judge.shop))
    best = first_calendar(asked, judge, SEED, tries_n=AGAIN_N if stays else TRIES_N)
    if not best or proved(best, asked, judge.shop, judge.terms):
        raise ValueError("no time: some plate has none on any printer that it may run on")
    if len(asked) > MANY_N or stays:
        best = of_many(asked, judge, best, stays, SEED)
        return Answer(
            placed=best,
            finish_min=finish_of(best, known),
            bound_min=_least(asked, judge.shop),
            moved_n=moved_n(asked, best) if stays else 0,
            won_days=lateness(stays, judge)[0] - lateness(best, judge)[0] if stays else 0,
        )
    if len(asked) <= EXACT_N:
        tasks = asked
        best, bound = aim_by_aim(tasks, judge, best, SEED)
        bound = max(bound, _least(tasks, judge.shop))
    else:
        tasks = with_first_articles(asked, judge, best)
        best = _less_late(tasks, judge, best)
        tasks = no_later(tasks, judge, best)
        best, bound = _spread(tasks, judge, best)
    tidy = MinuteModel(tasks, judge, finish_of(best, known)).tidied(best, MINUTES_EFFORT, SEED)
    best = min((tidy, best), key=lambda placed: judge.score(placed, known))
    best = with_fewer_losses(best, with_first_articles(asked, judge, best), judge)
    best = in_preferred_order(best, asked, judge)
    best = tuple(sorted(best, key=lambda run: (run.start_min, run.key)))
    return Answer(placed=best, finish_min=finish_of(best, known), bound_min=bound)


def _less_late(tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...]) -> tuple[PrintRun, ...]:
    """Return a calendar with as few days late as can be found: none at all, or fewer by and by."""
    known = by_key(tasks)
    if not judge.score(best, known)[0]:
        return best
    if len(tasks) > EXACT_N:
        in_time = cleared_by(tasks, {job: judge.latest_free_min(job, 0) for job in judge.by_job(best)})
        if all(any(windows_of(task, p, judge.shop) for p in task.takes_min) for task in in_time):
            placed, _ = _by(in_time, judge, finish_of(best, known), quick=False)
            best = min((each for each in (placed, best) if each), key=lambda each: judge.score(each, known))
    return improved(tasks, judge, best, "late", LATE_ROUNDS_N, SEED)


def _spread(tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...]) -> tuple[tuple[PrintRun, ...], int]:
    """Halve the limit on the finish between the bound and the best; of what was found and known, better the best."""
    known = by_key(tasks)
    first = best = _early(tasks, judge, best)
    finish = finish_of(best, known)
    bound = _halved(tasks, judge, _least(tasks, judge.shop), finish)
    covered = Covering(tasks, judge.shop, finish).known
    if covered:
        best, bound = _searched(tasks, judge, best, bound, quick=True)
        bound = bound if _good(best, known, bound) else max(bound, _denied(tasks, judge, finish_of(best, known)))
    else:
        bound = _raised(tasks, judge, bound, finish)
    if not covered or not _good(best, known, bound):
        best, bound = _searched(tasks, judge, best, bound, quick=False)
    finish = finish_of(best, known)
    if not _good(best, known, bound) and not covered:  # once more, with patience, for what would be good enough
        limit = int(finish / (1.0 + GOOD_SHARE)) + 1
        if SpreadModel(tasks, judge.shop, limit).never(PROOF_EFFORT, SEED, nodes_n=0):
            bound = limit + 1
    if not _good(best, known, bound) and len(tasks) <= PATIENT_N:
        found, least = MinuteModel(tasks, judge, finish).found(PATIENT_EFFORT, SEED, best)
        best, bound = found or best, max(bound, least)
    if not _good(best, known, bound):
        best = improved(tasks, judge, best, "finish", FINISH_ROUNDS_N, SEED)
    if not _good(best, known, bound) and not covered:
        bound = _lifted(tasks, judge, bound, finish_of(best, known))
    soonest = finish_of(best, known)
    best = min((best, first), key=lambda placed: judge.score(placed, known))
    if len({task.job for task in tasks}) > 1:
        best = improved(tasks, judge, best, "ready", READY_ROUNDS_N, SEED)
    many = len(tasks) > PATIENT_N
    if (
        not many and finish_of(best, known) > soonest and not _good(best, known, bound)
    ):  # for what counts more: prove it
        model = MinuteModel(tasks, judge, finish_of(best, known))
        model.hold({"ready": judge.worth(best, known)["ready"]})
        found, least = model.found(HELD_EFFORT, SEED, best)
        best, bound = found or best, max(bound, least)
    return _early(tasks, judge, best), bound


def _good(best: Sequence[PrintRun], known: Mapping[Key, Task], bound: int) -> bool:
    """Return whether a calendar is close enough to what is proved impossible."""
    return finish_of(best, known) <= (1.0 + GOOD_SHARE) * bound


def _searched(
    tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...], bound: int, *, quick: bool
) -> tuple[tuple[PrintRun, ...], int]:
    """Return the best calendar and the bound after limits on the finish were halved between them."""
    known = by_key(tasks)
    low, finish = bound, finish_of(best, known)
    for _ in range(QUICK_N if quick else PROBES_N):
        if finish - low <= CLOSE_SHARE * finish:
            break
        limit = (low + finish) // 2
        placed, never = _by(tasks, judge, limit, quick=quick)
        if placed:
            best = placed
            finish = finish_of(best, known)
        else:
            low = limit + 1
            bound = low if never else bound
    return best, bound


def _halved(tasks: Sequence[Task], judge: Judge, low: int, finish: int) -> int:
    """Return the earliest finish, nearly, that the linear form of the covering does not deny."""
    while finish - low > max(1, CLOSE_SHARE / 2 * finish):
        limit = (low + finish) // 2
        if Covering(tasks, judge.shop, limit).never():
            low = limit + 1
        else:
            finish = limit
    return low


def _denied(tasks: Sequence[Task], judge: Judge, finish: int) -> int:
    """Return a finish that no calendar beats and that makes a found one good enough; 0 where that is not proved."""
    limit = int(finish / (1.0 + GOOD_SHARE)) + 1
    return limit + 1 if Covering(tasks, judge.shop, limit).found(COVER_NODES_N)[1] else 0


def _raised(tasks: Sequence[Task], judge: Judge, low: int, finish: int) -> int:
    """Return the latest begin of an attended span by which no calendar can be done, or the bound known before.

    Between two spans nothing starts, so these are where the relaxation is strongest; the last ones are tried.
    """
    begins = [a for a, _ in judge.shop.attended if low < a < finish][-BEGINS_N:]
    for begin in reversed(begins):
        if SpreadModel(tasks, judge.shop, begin).never(RAISE_EFFORT, SEED, RAISE_NODES_N):
            return begin + 1
    return low


def _lifted(tasks: Sequence[Task], judge: Judge, low: int, finish: int) -> int:
    """Return a bound between one that is known and a finish that was found: the latest limit that has no spread.

    What was denied before was asked for later finishes; of the one found at last, mostly one question is enough.
    """
    limit = int(finish / (1.0 + GOOD_SHARE)) + 1
    for _ in range(LIFTS_N):
        if SpreadModel(tasks, judge.shop, limit).never(RAISE_EFFORT, SEED, RAISE_NODES_N):
            low = limit + 1
        else:
            finish = limit
        if (1.0 + GOOD_SHARE) * low >= finish:
            break
        limit = (low + finish) // 2
    return low


def _by(tasks: Sequence[Task], judge: Judge, limit: int, *, quick: bool) -> tuple[tuple[PrintRun, ...], bool]:
    """Return a calendar with a finish by a limit (empty: none found), and whether it is sure that there is none.

    ``quick``: only what is found fast counts, for a calendar that is good enough already.
    """
    for spare in SPARES_MIN[: 1 if quick else None]:
        found, none = SpreadModel(tasks, judge.shop, limit, spare).found(PROBE_EFFORT, SEED, quick=quick)
        if not found and not none and not quick:
            found, none = Covering(tasks, judge.shop, limit, spare).found(COVER_NODES_N)
        if not found:
            return (), none and not spare
        placed, _ = MinuteModel(tasks, judge, limit, found).found(MINUTES_EFFORT, SEED, ())
        if placed:
            return placed, False
    return (), False


def _early(tasks: Sequence[Task], judge: Judge, best: tuple[PrintRun, ...]) -> tuple[PrintRun, ...]:
    """Return a calendar that finishes no later, with earlier ends of its plates, or the same."""
    known = by_key(tasks)
    finish, spread = finish_of(best, known), _spread_of(best, judge.shop)
    early, _ = SpreadModel(tasks, judge.shop, finish).found(EARLY_EFFORT, SEED, early=spread)
    for each in (early, spread):
        if each:
            placed, _ = MinuteModel(tasks, judge, finish, each).found(MINUTES_EFFORT, SEED, best, "ends")
            if placed and judge.score(placed, known) < judge.score(best, known):
                return placed
    return best


def _least(tasks: Sequence[Task], shop: Shop) -> int:
    """Return a finish that no calendar can beat: the first end of the plate that can end first at the latest."""
    firsts = []
    for task in tasks:
        starts = {p: windows_of(task, p, shop) for p in task.takes_min}
        firsts.append(min(s[0][0] + task.takes_min[p] + task.lost_min.get(p, 0) for p, s in starts.items() if s))
    return max(firsts)


def _spread_of(placed: Sequence[PrintRun], shop: Shop) -> Spread:
    """Return the spread of a calendar."""
    return {
        run.key: (run.printer, next(k for k, (a, b) in enumerate(shop.attended) if a <= run.start_min < b))
        for run in placed
    }

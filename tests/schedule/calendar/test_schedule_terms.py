"""ScheduleTerms: when a device is ready and how late that is, by the minute at which its last bed is cleared."""

from __future__ import annotations

from datetime import date, datetime

import pytest

from planner.schedule import AIMS, Judge, PrintRun, ScheduleTerms, Shop, Step, Task, Wall, by_key

START = datetime(2026, 12, 1, 17, 30)
EVENINGS = tuple((day * 1440, day * 1440 + 300) for day in range(60))
SHOP = Shop(change_min={"a": 15}, attended=EVENINGS)
WORK = (Step(name="cord", takes_min=60), Step(name="again", takes_min=10, after=("cord",), wait_min=1440))


def _terms(due: date | None, steps: tuple[Step, ...] = WORK) -> ScheduleTerms:
    """Return what a job asks for."""
    return ScheduleTerms(steps=steps, deadline=due, wall=Wall(start=START))


@pytest.mark.parametrize("days", range(4))
def test_the_latest_minute_is_the_last_that_keeps_the_days(days: int) -> None:
    """One minute more is one day more late, for work that waits a day between two steps."""
    judge = Judge([_terms(date(2026, 12, 3))], SHOP)
    latest = judge.latest_free_min(0, days)

    assert latest is not None
    assert judge.late_days(0, latest) <= days < judge.late_days(0, latest + 1)


def test_without_a_deadline_nothing_is_late() -> None:
    """Any minute will do."""
    judge = Judge([_terms(None)], SHOP)

    assert judge.latest_free_min(0, 0) is None
    assert judge.late_days(0, 50_000) == 0


def test_a_device_is_ready_when_the_hands_are_done() -> None:
    """By hand: cleared at 18:30, an hour of work to 19:30, a day of rest, ten minutes: 19:40 the day after."""
    judge = Judge([_terms(None)], SHOP)

    assert judge.ready_min(0, 60) == 120 + 1440 + 10


def test_the_order_of_aims_is_what_a_person_wants() -> None:
    """Days late, devices ready early, printers free early, plates early: one definition that scores are made by."""
    judge, task = Judge([_terms(date(2026, 12, 1))], SHOP), Task(plate=1, takes_min={"a": 60}, lost_min={"a": 6})
    run = PrintRun(plate=1, printer="a", start_min=240, end_min=300, clear_min=1440, free_min=1455)
    worth = judge.worth([run], by_key([task]))

    assert AIMS == ("late", "ready", "finish", "ends")
    assert worth == {"late": 2, "ready": 100 * (2 * 1440 + 75 + 10), "finish": 306, "ends": 300}
    assert judge.score([run], by_key([task])) == tuple(worth[aim] for aim in AIMS)


def test_scores_put_days_late_first_and_a_short_device_before_a_long_one() -> None:
    """Two jobs of one plate each: the same last end, and the short job first is better; late is worse than anything."""
    tasks = [Task(job=job, plate=1, takes_min={"a": n}) for job, n in enumerate((100, 30))]
    judge = Judge([_terms(date(2026, 12, 20), ()), _terms(date(2026, 12, 1), ())], SHOP)

    def score(first: int, start_min: int = 0) -> tuple[int, ...]:
        runs, minute = [], start_min
        for job in (first, 1 - first):
            end = minute + (100, 30)[job]
            runs.append(
                PrintRun(job=job, plate=1, printer="a", start_min=minute, end_min=end, clear_min=end, free_min=end + 15)
            )
            minute = end + 15
        return judge.score(runs, by_key(tasks))

    assert score(1) < score(0)
    assert score(1)[0] == score(0)[0] == 0
    assert score(1)[2] == score(0)[2] == 145
    assert score(1, 1440)[0] == 1


def test_devices_ready_early_count_before_plates_that_end_early() -> None:
    """Plates of 40 and 40 of one device and 60 of another, 15 min to change, by hand: the same last end of 170.

    The single plate first: ready at 75 and 185, ends 60 + 115 + 170 = 345. The pair first: 110 and 185, ends 305.
    """
    judge = Judge([_terms(None, ()), _terms(None, ())], SHOP)
    takes = {(0, 1): 40, (0, 2): 40, (1, 1): 60}
    tasks = [Task(job=job, plate=plate, takes_min={"a": n}) for (job, plate), n in takes.items()]

    def score(*order: tuple[int, int]) -> tuple[int, ...]:
        runs, minute = [], 0
        for job, plate in order:
            end = minute + takes[job, plate]
            runs.append(
                PrintRun(
                    job=job, plate=plate, printer="a", start_min=minute, end_min=end, clear_min=end, free_min=end + 15
                )
            )
            minute = end + 15
        return judge.score(runs, by_key(tasks))

    single, pair = score((1, 1), (0, 1), (0, 2)), score((0, 1), (0, 2), (1, 1))

    assert single[2:] == (170, 345)
    assert pair[2:] == (170, 305)
    assert single < pair

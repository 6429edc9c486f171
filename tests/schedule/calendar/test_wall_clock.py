"""Clocks that change: real minutes against what the clock shows, by the rules of the European Union (2000/84/EC)."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import Attended, Calendar, Printer, read_job
from planner.schedule import JobLoads, PlateLoad, Wall, timetables
from planner.schedule.calendar.weekly_spans import spans_of

NIGHT = Attended(days=(5,), from_min=1320, to_min=1440), Attended(days=(6,), from_min=0, to_min=420)
"""Saturdays 22:00 to Sundays 07:00."""


@pytest.mark.parametrize(("day", "hours"), [(27, 8), (20, 9)])
def test_a_window_over_the_night_of_the_change_is_an_hour_shorter(day: int, hours: int) -> None:
    """In the night to 28 March 2027 Berlin's clocks go from 02:00 to 03:00: 22:00 to 07:00 are 8 h, else 9 h."""
    start = datetime(2027, 3, day, 12, 0)
    low, high = spans_of(NIGHT, start, "Europe/Berlin")[0]

    assert low == 600
    assert high - low == hours * 60
    assert spans_of(NIGHT, start)[0] == (600, 1140)


def test_clock_and_minutes_agree_both_ways() -> None:
    """10 h from 22:00 end at 09:00 by the clock in spring and at 07:00 in autumn; minutes and clock are inverse."""
    spring = Wall(start=datetime(2027, 3, 27, 22, 0), zone="Europe/Berlin")
    autumn = Wall(start=datetime(2027, 10, 30, 22, 0), zone="Europe/Berlin")

    assert spring.at(600) == datetime(2027, 3, 28, 9, 0)
    assert autumn.at(600) == datetime(2027, 10, 31, 7, 0)
    assert replace(autumn, zone="").at(600) == datetime(2027, 10, 31, 8, 0)
    assert spring.minutes_to(spring.at(600)) == 600
    assert autumn.after(timedelta(minutes=600)) == autumn.at(600)


def test_a_plate_as_long_as_the_short_night_fits_it_and_one_minute_more_does_not(printer: Printer) -> None:
    """8 h fit the window of 8 h of that night and end at 07:00; 8 h 1 min wait a week, for a night of 9 h."""
    calendar = Calendar(start=datetime(2027, 3, 27, 12, 0), attended=NIGHT, zone="Europe/Berlin")
    ends = []
    for minutes in (480, 481):
        load = PlateLoad(plate=1, takes_s={printer.name: minutes * 60.0})
        table = timetables([JobLoads(loads=(load,), calendar=calendar, printers=(printer,))])[0]
        ends.append(table.runs[0].end)

    assert ends == [datetime(2027, 3, 28, 7, 0), datetime(2027, 4, 4, 6, 1)]


def test_a_zone_that_is_none_is_refused(tmp_path: Path) -> None:
    """A slip in the name is told with the nearest one."""
    (tmp_path / "a.stl").touch()
    (tmp_path / "job.toml").write_text(
        '[job]\nname = "n"\n[[part]]\nname = "a"\nmesh = "a.stl"\n[plan]\nzone = "Europe/Berlim"\n'
    )
    with pytest.raises(JobError, match="Europe/Berlin"):
        read_job(tmp_path / "job.toml")

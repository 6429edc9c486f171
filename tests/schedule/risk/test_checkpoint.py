"""Going on: Daly's formula at both ends, and a simulation that knows none, for printers that go on after some failures."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from planner.errors import ProfileError
from planner.job import read_printer, shipped
from planner.schedule import Hazard, Marks, expected_s, risk_of

HOUR = 3600.0


def _simulated(hours: float, hazard: Hazard, marks: Marks, plays: int) -> tuple[float, float, float]:
    """Return mean seconds, its standard error and the failures begun again, event by event."""
    rng = np.random.default_rng(3)
    whole, per_s = hours * HOUR, hazard.per_hour / HOUR
    clock, at, anew = np.zeros(plays), np.zeros(plays), np.zeros(plays)
    open_ = np.arange(plays)
    while len(open_):
        until = rng.exponential(1.0 / per_s, len(open_))
        left = whole - at[open_]
        bad, goes_on = until < left, rng.random(len(open_)) < marks.share
        reached = at[open_] + until
        clock[open_] += np.where(bad, until + np.where(goes_on, marks.resume_s, hazard.change_s), left)
        anew[open_] += bad & ~goes_on
        at[open_] = np.where(goes_on, np.floor(reached / marks.mark_s) * marks.mark_s, 0.0)
        open_ = open_[bad]
    return float(clock.mean()), float(clock.std() / math.sqrt(plays)), float(anew.mean())


@pytest.mark.parametrize(
    ("hours", "rate", "share", "mark_s"),
    [(20.0, 0.03, 0.5, 60.0), (8.0, 0.1, 0.3, 3600.0), (12.0, 0.1, 1.0, 5000.0), (10.0, 0.05, 0.0, 600.0)],
)
def test_the_time_is_what_a_simulation_finds(hours: float, rate: float, share: float, mark_s: float) -> None:
    """Half of the failures gone on after, or a third, all, none; marks each minute or hour: within 1 % of 400,000 plays."""
    marks = Marks(share=share, mark_s=mark_s, resume_s=900.0)
    hazard = Hazard(per_hour=rate, change_s=1200.0, heat_up_s=0.0, goes_on=marks)
    seconds, error, anew = _simulated(hours, hazard, marks, 400_000)
    found = risk_of(hours * HOUR, 100.0, hazard)

    assert error < 0.004 * seconds
    assert found.expected_s == pytest.approx(seconds, rel=0.01)
    assert found.failures_n == pytest.approx(anew, rel=0.02, abs=1e-9)


def test_both_ends_are_the_published_formulas() -> None:
    """None gone on after: (1/rate + R)(e^(rate T) - 1); all: T/L times that of L (Daly 2006, FGCS 22:303)."""
    none = Hazard(per_hour=0.03, change_s=900.0, heat_up_s=0.0, goes_on=Marks(share=0.0, mark_s=60.0, resume_s=1.0))
    all_ = replace(none, goes_on=Marks(share=1.0, mark_s=HOUR, resume_s=900.0))

    assert risk_of(20 * HOUR, None, none).expected_s == pytest.approx(expected_s(20 * HOUR, 0.03, 900.0))
    assert risk_of(20 * HOUR, None, all_).expected_s == pytest.approx(20 * expected_s(HOUR, 0.03, 900.0))
    assert risk_of(20 * HOUR, 80.0, all_).lost_g == 0.0
    assert risk_of(20 * HOUR, 80.0, all_).failure_percent == pytest.approx(0.0)


def test_going_on_helps_a_long_plate_more_than_a_split_does() -> None:
    """20 h at 3 %/h: 27.4 h begun again (domain figure); with half of the failures gone on after it is less, never under 20."""
    marks = Marks(share=0.5, mark_s=60.0, resume_s=600.0)
    some = Hazard(per_hour=0.03, change_s=0.0, heat_up_s=0.0, goes_on=marks)

    assert 20.0 < risk_of(20 * HOUR, None, some).expected_s / HOUR < 27.4
    assert math.isinf(risk_of(20_000 * HOUR, None, some).expected_s)


def test_a_profile_says_whether_its_printer_goes_on(tmp_path: Path) -> None:
    """[goes_on] is read; a share over 100 % is refused; without the table a printer begins again."""
    text = (shipped("profiles") / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    ours = tmp_path / "ours.toml"
    ours.write_text(text + "\n[goes_on]\nshare_percent = 30.0\nmark_s = 20.0\nresume_s = 600.0\n", encoding="utf-8")
    printer = read_printer("ours.toml", tmp_path)

    assert Hazard.of(printer).goes_on == Marks(share=0.3, mark_s=20.0, resume_s=600.0)
    assert Hazard.of(read_printer("bench-220", tmp_path)).goes_on is None
    ours.write_text(text + "\n[goes_on]\nshare_percent = 130.0\nmark_s = 20.0\nresume_s = 600.0\n", encoding="utf-8")
    with pytest.raises(ProfileError, match="share_percent"):
        read_printer("ours.toml", tmp_path)

"""The print log: ratios and failure rate come back, drift is told, and a slip is one sentence."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy import stats

from planner.calibrate import Print, logged, own_profile, read_log
from planner.errors import ProfileError
from planner.job import printer_text, read_material, read_printer, read_settings
from planner.layers import estimate_part, plate_duration_s
from planner.sourced import Sourced, stated
from tests.shapes import cuboid

HERE = Path()
HEAD = "plate,planned_h,real_h,planned_g,real_g,outcome,cause,failed_at_h\n"
RATE = stated(0.01)


def _done(real: float, planned: float = 4.0, grams: float = 50.0) -> Print:
    """Return a finished plate."""
    return Print(
        plate="p",
        planned_h=planned,
        real_h=real,
        planned_g=50.0,
        real_g=grams,
        failed=False,
        cause="",
        failed_at_h=None,
    )


def _failed(at: float) -> Print:
    """Return a plate that failed."""
    return Print(
        plate="p", planned_h=9.0, real_h=None, planned_g=None, real_g=None, failed=True, cause="loose", failed_at_h=at
    )


def test_the_ratio_is_the_median_with_its_tenths() -> None:
    """Of ten plates: numpy's median and quantiles of real over planned; failed ones do not count."""
    real = [4.0, 4.4, 4.8, 5.0, 5.2, 4.6, 4.7, 4.9, 5.1, 4.3]
    found = logged([*(_done(hours) for hours in real), _failed(2.0)], RATE, "log")

    assert found.time_ratio is not None
    assert found.time_ratio.value == pytest.approx(np.median(real) / 4)
    assert found.time_ratio.low == pytest.approx(np.quantile(real, 0.1) / 4)
    assert found.time_ratio.high == pytest.approx(np.quantile(real, 0.9) / 4)


def test_before_five_plates_nothing_is_learnt() -> None:
    """Four are too few: the usual 30 % stand, and it is said."""
    found = logged([_done(5.0)] * 4, RATE, "log")

    assert found.time_ratio is None
    assert any("5 are needed" in note for note in found.notes)


def test_the_failure_rate_is_gamma_poisson() -> None:
    """Three failures in 120 h on a prior of one in 100 h: (1 + 3) / (100 + 120), interval by scipy's Gamma (conjugate)."""
    prints = [*(_done(4.0) for _ in range(27)), _failed(4.0), _failed(5.0), _failed(3.0)]
    found = logged(prints, RATE, "log").failure_per_hour

    assert found.value == pytest.approx(4 / 220)
    assert found.low == pytest.approx(stats.gamma(4, scale=1 / 220).ppf(0.05))
    assert found.high == pytest.approx(stats.gamma(4, scale=1 / 220).ppf(0.95))


def test_with_no_failure_the_rate_falls_and_never_to_zero() -> None:
    """The more hours without one, the lower; never 0."""
    rates = [logged([_done(4.0)] * n, RATE, "log").failure_per_hour.value for n in (0, 10, 100, 1000)]

    assert rates == sorted(rates, reverse=True)
    assert rates[0] == pytest.approx(0.01)
    assert rates[-1] > 0


def test_the_true_rate_lies_in_the_interval_about_as_often_as_it_says() -> None:
    """400 seeded logs of 500 h at the prior's own kind of rates: the 90 % interval holds in 86 to 94 %."""
    rng, inside = np.random.default_rng(5), 0
    for _ in range(400):
        rate = float(rng.gamma(1.0, 0.01))
        k = int(rng.poisson(rate * 500))
        prints = [*(_failed(5.0) for _ in range(k)), *(_done(5.0) for _ in range(max(100 - k, 0)))]
        found = logged(prints, RATE, "log").failure_per_hour
        inside += found.low <= rate <= found.high

    assert 0.86 <= inside / 400 <= 0.94


def test_a_drift_is_told() -> None:
    """Ten plates as planned, then five that take half as long again."""
    calm = [_done(4.0 + 0.05 * (k % 3)) for k in range(10)]

    assert any("look at the printer" in note for note in logged([*calm, *[_done(6.1)] * 5], RATE, "log").notes)
    assert not any("look at the printer" in note for note in logged([*calm, *calm[:5]], RATE, "log").notes)


def test_the_log_corrects_the_estimate(tmp_path: Path) -> None:
    """A ratio of 1.2 in the printer's own profile makes plates 1.2 times as long, with the log's own range."""
    ratio = Sourced(value=1.2, low=1.1, high=1.4, kind="measured", source="print log")
    (tmp_path / "own.toml").write_text(
        own_profile(printer_text("bench-220", HERE), {"time_ratio": ratio}, None), encoding="utf-8"
    )
    plain, own = read_printer("bench-220", HERE), read_printer("own.toml", tmp_path)
    settings, material = read_settings("standard-0.4", HERE), read_material("petg", HERE)
    part = estimate_part(cuboid(20, 20, 10), settings=settings, printer=plain, material=material)
    before, after = (plate_duration_s([part], settings=settings, printer=printer) for printer in (plain, own))

    assert after.value == pytest.approx(1.2 * before.value)
    assert (after.low, after.high) == (pytest.approx(1.1 * before.value), pytest.approx(1.4 * before.value))  # type: ignore[comparison-overlap]


def test_a_log_by_hand_is_read(tmp_path: Path) -> None:
    """Commas or semicolons, decimal commas, empty cells and empty lines."""
    (tmp_path / "a.csv").write_text(HEAD + "1,4.0,4.4,50,51,done,,\n\n2,3,,,,failed,loose,1.5\n", encoding="utf-8")
    (tmp_path / "b.csv").write_text(
        (HEAD + "1,4.0,4.4,50,51,done,,\n").replace(",", ";").replace("4.4", "4,4"), encoding="utf-8"
    )

    first, second = read_log(tmp_path / "a.csv")
    assert (first.real_h, first.failed, second.failed_at_h, second.cause) == (4.4, False, 1.5, "loose")
    assert read_log(tmp_path / "b.csv")[0].real_h == 4.4


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("plate,planed_h,outcome\n", "planned_h"),
        ("plate,planned_h\n", "outcome"),
        (HEAD + "1,4,4,50,50,broken,,\n", "done or failed"),
        (HEAD + "1,4,-4,50,50,done,,\n", "real_h"),
        (HEAD + "1,4,x,50,50,done,,\n", "real_h"),
        (HEAD + "1,4,240,50,50,done,,\n", "cannot be"),
        ("", "outcome|plate"),
    ],
)
def test_a_slip_is_one_sentence(text: str, word: str, tmp_path: Path) -> None:
    """A mistyped or missing column, an unknown outcome, a minus, a word, minutes for hours, and nothing at all."""
    (tmp_path / "a.csv").write_text(text, encoding="utf-8")
    with pytest.raises(ProfileError, match=word):
        read_log(tmp_path / "a.csv")

"""Families: ratios that shrink to the common rate, found again from simulated logs, and used by plan and profile."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy import integrate, stats

from planner.calibrate import Print, family_risks, read_log, with_families
from planner.job import read_printer, shipped
from planner.schedule import Hazard, batch_of, family_ratio


def _print(on: dict[str, int], hours: float, lost: dict[str, int] | None = None) -> Print:
    """Return a logged plate, failed where something was lost."""
    return Print(
        plate="",
        planned_h=hours,
        real_h=None if lost else hours,
        planned_g=None,
        real_g=None,
        failed=bool(lost),
        cause="loose" if lost else "",
        failed_at_h=hours if lost else None,
        lost=tuple((lost or {}).items()),
        on=tuple(on.items()),
    )


def test_the_ratio_is_the_posterior_mean_of_a_gamma_and_poisson_model() -> None:
    """Three failures, 1.0 expected: mean and 90 % interval by integrating prior times likelihood (scipy.integrate)."""
    prints = [_print({"jaw": 2}, 50.0), *[_print({"jaw": 2}, 50.0 / 3, {"jaw": 1})] * 3]
    (found,) = family_risks(prints, 0.01, "log")

    def weight(x: float) -> float:
        """Return prior times likelihood of a ratio."""
        return float(stats.gamma.pdf(x, 2.0, scale=0.5) * stats.poisson.pmf(3, x * 1.0))

    total = integrate.quad(weight, 0, 60)[0]
    assert found.ratio.value == pytest.approx(integrate.quad(lambda x: x * weight(x), 0, 60)[0] / total, rel=1e-4)
    assert integrate.quad(weight, found.ratio.low, found.ratio.high)[0] / total == pytest.approx(0.9, abs=1e-3)


def test_a_ratio_is_near_one_at_first_and_the_true_one_after_many_plates() -> None:
    """Plates of one kind each, jaws failing three times as often as caps: found within 15 % after 6,000 plates."""
    rng, rates = np.random.default_rng(2), {"jaw": 0.03, "cap": 0.01}
    prints = []
    for k in range(6000):
        name = ("jaw", "cap")[k % 2]
        until = float(rng.exponential(1.0 / rates[name]))
        prints.append(_print({name: 4}, min(until, 5.0), {name: 1} if until < 5.0 else None))
    few = {one.name: one.ratio for one in family_risks(prints[:2], 0.02, "log")}
    many = {one.name: one.ratio for one in family_risks(prints, 0.02, "log")}

    assert all(0.8 < one.value < 1.5 and one.low < 1.0 < one.high for one in few.values())
    assert many["jaw"].value / many["cap"].value == pytest.approx(3.0, rel=0.15)
    assert many["jaw"].low > 1.0 > many["cap"].high


def test_names_in_the_log_reach_the_plan_by_the_profile(tmp_path: Path) -> None:
    """Pieces named in a CSV become [fails_by]; a plate of them carries the ratio and its reason, another the common."""
    log = tmp_path / "log.csv"
    rows = ["plate,outcome,real_h,failed_at_h,pieces,lost", "a,failed,,2,jaw:2 cap:2,jaw:1"] + ["b,done,5,,cap:4,"] * 40
    log.write_text("\n".join(rows) + "\n", encoding="utf-8")
    base = (shipped("profiles") / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    once = with_families(base, family_risks(read_log(log), 0.05, "log"))
    (tmp_path / "mine.toml").write_text(with_families(once, family_risks(read_log(log), 0.05, "log")), encoding="utf-8")
    printer = read_printer("mine.toml", tmp_path)
    jaw = family_ratio(printer, {("jaw", "load"): 2})
    other = family_ratio(printer, {("lid", "cover"): 1})

    assert read_log(log)[0].pieces_n == 4.0
    assert jaw.ratio > 1.0 > family_ratio(printer, {("cap", "cover"): 1}).ratio
    assert "jaw" in jaw.why
    assert "expected" in jaw.why
    assert (other.ratio, other.low) == (1.0, 1.0)


def test_the_split_parts_the_pieces_that_fail(tmp_path: Path) -> None:
    """One kind fails five times as often: the risk of a plate and its split follow it."""
    printer = read_printer("bench-220", tmp_path)
    hazard = Hazard(per_hour=0.02, change_s=600.0, heat_up_s=0.0)
    common = family_ratio(printer, {("jaw", "load"): 4})

    def both(oftener: float) -> int:
        """Return on how many plates four pieces of five hours each are best."""
        ratio = type(common)(ratio=oftener, low=oftener, high=oftener, why="test")
        batch = batch_of(["jaw"], (4,), lambda n: (n[0] * 18_000.0, None), hazard, ratio_by=lambda _: ratio)
        assert batch.best is not None
        return batch.best.plates_n

    cheap = Hazard(per_hour=0.02, change_s=36_000.0, heat_up_s=0.0)
    dear = batch_of(["jaw"], (4,), lambda n: (n[0] * 18_000.0, None), cheap)
    assert dear.best is not None
    assert both(5.0) >= dear.best.plates_n
    assert both(5.0) == 4

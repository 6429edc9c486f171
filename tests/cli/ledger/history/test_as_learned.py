"""Printers with the numbers that their chapter's ledger has learned."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy.engine import Engine

from planner.cli.ledger.history.as_learned import as_learned, history_of
from planner.job import Printer, read_printer
from planner.ledger import made, told
from planner.sourced import Sourced
from tests.ledger.history.made_history import coupon, printer, prints
from tests.ledger.telling import DAY


@pytest.fixture(name="base")
def _base() -> Printer:
    return read_printer("bench-220", Path())


@pytest.fixture(name="engine")
def _engine(tmp_path: Path) -> Engine:
    """Return a ledger of a printer with six timed prints and a coupon, and of a new one."""
    engine = made(str(tmp_path / "ledger.db"))
    timed = prints("R-01", "bench-1", [1.1, 1.12, 1.08, 1.1, 1.11, 1.09])
    events = [printer("bench-1"), printer("bench-2"), *timed, coupon("bench-1", date(2026, 3, 2), 0.26)]
    told(engine, events, DAY)
    return engine


def test_a_printer_has_its_own_numbers_and_a_new_one_borrows(engine: Engine, base: Printer) -> None:
    """Hours, grams and failures of both; offsets, the gap and that it is calibrated of the one that was measured."""
    history = history_of(engine, Path(), DAY)
    one, two = (as_learned(base, name, "petg", history, valid=True) for name in ("bench-1", "bench-2"))

    assert one.time_ratio is not None
    assert two.time_ratio is not None
    assert one.time_ratio.value == pytest.approx(1.1, abs=0.01)
    assert 1.0 < two.time_ratio.value <= one.time_ratio.value
    assert two.time_ratio.high - two.time_ratio.low > one.time_ratio.high - one.time_ratio.low
    assert one.failure_per_hour.value < two.failure_per_hour.value
    assert one.undersize.upright_mm.value == pytest.approx(0.26, abs=0.015)
    assert one.least_gap_mm.value == one.least_gap_mm.high
    assert (one.calibrated, two.calibrated) == (True, False)
    assert one.calibrated_for is not None
    assert (one.calibrated_for.material, one.calibrated_for.taken) == ("petg", date(2026, 3, 2))
    assert (two.undersize, two.least_gap_mm, one.undersize.lying_mm) == (
        base.undersize,
        base.least_gap_mm,
        base.undersize.lying_mm,
    )


def test_a_coupon_counts_for_its_material_and_nozzle_while_it_is_valid(engine: Engine, base: Printer) -> None:
    """Another material, another nozzle, or one that ran out: the profile's offsets stand."""
    history = history_of(engine, Path(), DAY)
    wide = replace(base, nozzle_mm=replace(base.nozzle_mm, value=0.6, low=0.6, high=0.6))
    for made_of, on, valid in (("pla", base, True), ("petg", wide, True), ("petg", base, False)):
        found = as_learned(on, "bench-1", made_of, history, valid=valid)
        assert (found.undersize, found.calibrated) == (base.undersize, False)


def test_a_log_of_its_own_stands_until_the_ledger_has_five(engine: Engine, base: Printer) -> None:
    """A new printer whose profile was measured keeps its ratio; the old one's six prints in the ledger outdo it."""
    own = Sourced(value=1.4, low=1.3, high=1.5, kind="measured", source="print log")
    logged = replace(base, time_ratio=own)
    history = history_of(engine, Path(), DAY)

    assert as_learned(logged, "bench-2", "petg", history, valid=True).time_ratio == own
    assert as_learned(logged, "bench-1", "petg", history, valid=True).time_ratio != own
    assert as_learned(base, "bench-1", "petg", None, valid=True) is base


def test_four_prints_change_nothing(tmp_path: Path, base: Printer) -> None:
    """What the profile says stands until five told a number."""
    engine = made(str(tmp_path / "few.db"))
    told(engine, [printer("bench-1"), *prints("R-01", "bench-1", [1.3] * 4)], DAY)

    assert as_learned(base, "bench-1", "petg", history_of(engine, Path(), DAY), valid=True) == base

"""What each print says about its printer, its material and its lot."""

from __future__ import annotations

import pytest
from sqlalchemy.engine import Engine

from planner.ledger import told
from planner.ledger.history.told_prints import told_prints
from tests.ledger.history.made_history import printer, prints
from tests.ledger.telling import DAY, chapter, plate, tell


def test_ratios_are_of_what_was_told_over_the_bare_plan(ledger: Engine) -> None:
    """Nobody told: None. 1.2 times told: 1.2; where the plan had counted with 1.1 already, 1.2 times that is 1.32."""
    rows = [{**plate("R-07.1", jaw=1), "time_ratio": 1.1}, plate("R-07.2", jaw=1), plate("R-07.3", jaw=1)]
    events = [
        tell("plates", "R-07", plates=rows),
        tell("done", "R-07.1", ran_s=1.2 * 7200.0),
        tell("done", "R-07.2", used_g=48.0),
        tell("failed", "R-07.3", ran_s=3600.0, cause="loose"),
    ]
    told(ledger, [*chapter(), *events], DAY)
    first, second, third = told_prints(ledger)

    assert first.time_ratio == pytest.approx(1.32)
    assert (first.mass_ratio, first.lot) == (None, "L-9")
    assert second.time_ratio is None
    assert second.mass_ratio == pytest.approx(1.2)
    assert (third.failed, third.ran_h, third.time_ratio) == (True, 1.0, None)


def test_a_print_of_two_lots_is_of_none(ledger: Engine) -> None:
    """Which of the two made the difference cannot be told; a ratio of fifty is a slip of the unit."""
    other = tell("spool", "S-2", material="petg", colour="green", lot="L-2", left_g=500.0)
    fed = [{"spool": "S-1", "used_g": 20.0}, {"spool": "S-2", "used_g": 20.0}]
    told(ledger, [*chapter(), other, tell("done", "R-07.1", fed=fed, ran_s=360000.0)], DAY)
    (one,) = told_prints(ledger)

    assert (one.lot, one.time_ratio, one.mass_ratio) == ("", None, 1.0)


def test_they_come_in_the_order_in_which_they_ended(ledger: Engine) -> None:
    """Whoever told them first."""
    told(ledger, [printer("bench-1"), *prints("R-01", "bench-1", [1.0, 1.1])], DAY)

    assert [one.time_ratio for one in told_prints(ledger)] == [1.0, 1.1]

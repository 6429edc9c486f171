"""Loose bores, worked out by hand: ISO 273 for clamped screws, the whole stock, then a bush, a plug, an insert."""

from __future__ import annotations

from dataclasses import replace

from planner.finding import Verdict
from planner.rules.fit.bores.bore_case import Stock
from planner.rules.fit.bores.bore_loose import BoreLoose
from tests.rules.fit.bores.test_bore_tight import BORE, CASE

M4 = Stock(label="M4 machine-screw", diameter_mm=4, need_mm=4.1, most_mm=4.8, drill_mm=4.1)
M5 = Stock(label="M5 machine-screw", diameter_mm=5, need_mm=5.1, most_mm=5.8, drill_mm=5.1)


def _case(drawn_mm: float, edge_mm: float = 2.0) -> BoreLoose:
    """Return the rule for a bore of another size, with M4 and M5 in stock; it prints 0.2 mm smaller."""
    bore = replace(BORE, diameter_mm=drawn_mm, drawn_diameter_mm=drawn_mm, edge_wall_mm=edge_mm)
    return BoreLoose(case=replace(CASE, bore=bore, larger=(M4, M5)))


def test_3_405_mm_is_no_reason_for_an_m4() -> None:
    """An M3 may sit in 3.6 mm (ISO 273 coarse): 3.405 goes, 3.6 goes, 3.61 is work."""
    assert [_case(printed + 0.2).at(1.0).verdict for printed in (3.405, 3.6, 3.61)] == [
        Verdict.GO,
        Verdict.GO,
        Verdict.GO_WITH_WORK,
    ]
    assert "3.61 mm; ISO 273 coarse for M3 allows 3.60 mm or less: equal within" in _case(3.81).at(1.0).why


def test_the_whole_stock_is_looked_through() -> None:
    """Printed 5.2 mm is too wide for M4 (4.8) and right for M5 (5.1 to 5.8)."""
    assert _case(5.4).at(1.0).remedy == "take M5 machine-screw instead"


def test_a_bush_comes_after_the_stock() -> None:
    """Printed 6.2 mm is too wide for M4 and M5: a bush of 6.2 outside, bored 3.1."""
    assert _case(6.4).at(1.0).remedy == "glue in a bush, 6.20 mm outside, bored 3.10 mm"


def test_a_bush_has_its_bore_drilled_where_that_is_too_narrow_for_its_wall() -> None:
    """Printed 3.8 mm with no larger screw in stock: a bush is 4.7 outside, 3.1 and twice 0.8 of wall, and 6 mm are beside."""
    loose = BoreLoose(case=replace(_case(4.0, 6.0).case, larger=()))

    assert loose.at(1.0).remedy == "drill to 4.70 mm and glue in a bush bored 3.10 mm"


def test_a_plug_is_named_where_no_wall_is_left_for_more() -> None:
    """Printed 3.8 with 1.4 mm beside: M4 needs 4.1, which leaves 1.4 + 2.0 - 2.05 = 1.35 mm; with 1.3 mm it leaves 1.25."""
    assert _case(4.0, 1.4).at(1.0).remedy == "drill to 4.10 mm and take M4 machine-screw instead"
    none = _case(4.0, 1.3).at(1.0)
    assert none.verdict is Verdict.NO_GO
    assert none.remedy.endswith(
        "at a scale of 95.0 % or less, this bore by itself is narrow enough"
    )  # (3.6 + 0.2) / 4.0


def test_a_pilot_that_strips_takes_a_larger_screw_or_an_insert() -> None:
    """A bush holds no thread: a stripped pilot takes the next screw that fits, else a threaded insert."""
    loose = _case(3.81)
    pilot = replace(loose.case, fit="pilot", larger=())

    assert BoreLoose(case=pilot).at(1.0).verdict is Verdict.NO_GO
    assert BoreLoose(case=pilot).at(1.0).remedy.startswith("set a threaded insert")


def test_a_larger_screw_needs_its_boss_too() -> None:
    """A #8 of 4.17 mm wants a boss of 8.33 mm: round 3.8 mm with 2.2 mm beside it there are 8.2, at 102 % 8.36."""
    eight = Stock(label="#8 wood-screw", diameter_mm=4.17, need_mm=3.33, most_mm=3.75, drill_mm=3.5, boss_mm=8.33)
    pilot = BoreLoose(case=replace(_case(3.8, 2.2).case, fit="pilot", most_mm=3.14, larger=(eight,)))

    assert pilot.at(1.0).verdict is Verdict.NO_GO
    assert pilot.at(1.02).remedy == "take #8 wood-screw instead"
    assert any(abs(turn - 8.33 / 8.2) < 1e-5 for turn in pilot.turns())

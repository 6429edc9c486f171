"""A printed shaft in a bought bearing, by hand: the shaft grows with the size, the bearing does not."""

from __future__ import annotations

from itertools import pairwise

import pytest

from planner.finding import Evidence, Verdict
from planner.rules.fit.bearings.bearing_peg import BearingPeg, OtherRing
from planner.sourced import Sourced
from planner.survey import Peg


def _limit(value: float) -> Sourced:
    return Sourced(value=value, low=value, high=value, kind="common-practice", source="test")


def _rule(*, sure: bool = True, ring: bool = True) -> BearingPeg:
    """Return a shaft drawn 8 mm thick in a bore of 8 mm; it prints within 0.1 mm, and 0.5 mm can be sanded off."""
    return BearingPeg(
        part="axle",
        feature="p1 in bearing",
        peg=Peg(id="p1", diameter_mm=8.0, length_mm=30.0, axis=(0.0, 0.0, 1.0), centre_mm=(0.0, 0.0, 0.0)),
        ring="bearing",
        seat_part="frame",
        hole_mm=8.0,
        in_place=sure,
        sure=sure,
        spread_mm=_limit(0.1),
        sand_mm=_limit(0.5),
        play_mm=_limit(0.1) if ring else None,
        sleeve_mm=_limit(0.8),
        others=(OtherRing(label="10 × 26 × 8", hole_mm=10.0, low_factor=1.2, high_factor=1.27),),
    )


@pytest.mark.parametrize(
    ("percent", "verdict", "told"),
    [
        (75.0, Verdict.HOLD, "fit a sleeve 6.00 mm inside and 8.00 mm outside"),
        (85.0, Verdict.HOLD, "wind tape or shim round p1 until it is 8.00 mm thick"),
        (98.9, Verdict.GO, ""),
        (100.0, Verdict.GO, ""),
        (106.0, Verdict.GO_WITH_WORK, "sand p1 to 8.00 mm"),
        (107.0, Verdict.NO_GO, "draw p1 7.48 mm thick"),
        (125.0, Verdict.NO_GO, "take a bearing 10 × 26 × 8"),
        (130.0, Verdict.NO_GO, "give axle scale = 100 where"),
    ],
)
def test_a_shaft_that_is_scaled_no_longer_fits_its_bearing(percent: float, verdict: Verdict, told: str) -> None:
    """8 mm at 85 % are 6.8 mm: it rattles; at 106 % 8.48 mm are sanded; at 107 % 8.56 mm no longer are."""
    finding = _rule().at(percent / 100.0)

    assert finding.measured == pytest.approx(8.0 * percent / 100.0)
    assert finding.verdict is verdict
    assert told in finding.remedy
    assert ("take a bearing" in finding.remedy) is (percent == 125.0)


def test_what_hangs_on_its_size_alone_is_asked() -> None:
    """It may not go there at all: then too thick is a question, too thin as well."""
    found = [_rule(sure=False).at(s) for s in (0.85, 1.0, 1.3)]

    assert [f.verdict for f in found] == [Verdict.HOLD, Verdict.GO, Verdict.HOLD]
    assert {f.evidence for f in found} == {Evidence.GUESSED}
    assert all(f.question and f.remedy.startswith("if it goes in, ") for f in (found[0], found[2]))


def test_nothing_rattles_in_a_washer() -> None:
    """What is no bearing may have all the play it likes; too thick is too thick."""
    assert [_rule(ring=False).at(s).verdict for s in (0.85, 1.3)] == [Verdict.GO, Verdict.NO_GO]


def test_a_tenth_of_a_millimetre_either_way_is_told() -> None:
    """At 100 % it may print 8.1 mm thick, and then is sanded: a caution; at 99.5 % 7.96 mm may become 8.06."""
    assert "sand it to 8.00 mm" in _rule().at(1.0).caution


def test_every_change_of_the_verdict_lies_at_a_turn() -> None:
    """From 50 to 200 % in steps of 0.5 %."""
    rule, scales = _rule(), [0.5 + 0.005 * step for step in range(301)]
    for low, high in pairwise(scales):
        if rule.at(low).verdict is not rule.at(high).verdict:
            assert any(low - 1e-9 <= turn <= high + 1e-9 for turn in rule.turns()), (low, high)

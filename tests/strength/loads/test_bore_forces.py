"""A lever's pivot takes more than its load, F (1 + a/b); where nobody tells its other arm, that is asked."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planner.assembly import Claim
from planner.job import Hardware
from planner.rules import BoreForce
from planner.strength.loads.bore_forces import LEVER_RATIO, bore_forces
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from planner.survey import Bore
from tests.mechanism.cord.path.known_parts import bore

A_MM, B_MM, LOAD_N = 40.0, 10.0, 15.0
PIVOT, REAR = bore(1, 0.0, 0.0, 2.5, 5.0, 5.0), bore(2, -B_MM, 0.0, 2.5, 5.0, 5.0)
PUSH = PartLoad(at_mm=(A_MM, 0.0, 2.5), force_n=(0.0, LOAD_N, 0.0))


def _pin(name: str, printed: str = "") -> Hardware:
    """Return a pin of 5 mm."""
    return Hardware(
        name=name, kind="dowel-pin", diameter_mm=5.0, bore_mm=5.0, fit="turning", joins=("a",), printed=printed
    )


def _claim(part: str, at: Bore, pin: Hardware) -> Claim:
    """Return a bore that turns about a pin."""
    return Claim(part=part, bore=at, hardware=pin, fit="turning")


def _case(*bores: Bore, asks: str = "") -> LoadCase:
    """Return the load at the tip of the lever, held by pins in bores."""
    holds = [Support(at_mm=one.centre_mm, over=one.id, axis=one.axis, turns=True) for one in bores]
    return replace(known_case([PUSH], holds, "15 N at its load_at_mm"), asks=asks)


def _most_n(forces: tuple[BoreForce, ...]) -> float:
    """Return the greatest force."""
    return max(one.force_n for one in forces)


def test_the_pivot_of_a_lever_takes_the_load_and_what_holds_it() -> None:
    """Arms of 40 and 10 mm, 15 N: 15 (1 + 40/10) = 75 N on the pivot, 60 N at the rear (Archimedes' lever)."""
    claims = [_claim("a", PIVOT, _pin("pivot")), _claim("a", REAR, _pin("rear"))]
    found = bore_forces({"a": [_case(PIVOT, REAR)]}, claims, {}, LOAD_N)

    assert _most_n(found["a"]["b1"]) == pytest.approx(LOAD_N * (1.0 + A_MM / B_MM), rel=1e-3)
    assert _most_n(found["a"]["b2"]) == pytest.approx(LOAD_N * A_MM / B_MM, rel=1e-3)
    assert not any(one.asks for one in found["a"]["b1"])
    assert found["a"]["b1"][0].said == "under 15 N at its load_at_mm"


def test_what_a_pin_takes_it_puts_on_the_other_part() -> None:
    """Action and reaction (Newton): the lugs that carry the pivot take its 75 N, and so does a pin that is printed."""
    pivot = _pin("pivot", printed="peg")
    claims = [_claim("a", PIVOT, pivot), _claim("a", REAR, _pin("rear")), _claim("lug", PIVOT, pivot)]
    found = bore_forces({"a": [_case(PIVOT, REAR)]}, claims, {}, LOAD_N)

    assert _most_n(found["lug"]["b1"]) == pytest.approx(75.0, rel=1e-3)
    assert _most_n(found["peg"]["pin"]) == pytest.approx(75.0, rel=1e-3)
    assert found["lug"]["b1"][0].said == "through a under 15 N at its load_at_mm"


def test_a_lever_that_nothing_holds_is_asked_about() -> None:
    """One pin alone passes no moment about itself: three times the load is judged, as a question; a cord answers it."""
    claims = [_claim("a", PIVOT, _pin("pivot"))]
    known, feared = bore_forces({"a": [_case(PIVOT)]}, claims, {}, LOAD_N)["a"]["b1"]
    told = bore_forces({"a": [_case(PIVOT)]}, claims, {("a", "b1"): 75.0}, LOAD_N)["a"]["b1"]

    assert known.asks == ""
    assert known.force_n == pytest.approx(LOAD_N)
    assert feared.force_n == pytest.approx(LEVER_RATIO * LOAD_N)
    assert feared.asks == "What holds a against turning about pivot in b1, and how far from it?"
    assert [one.asks for one in told] == ["", ""]
    assert told[1].said == "where 15 N are held at the tip"


def test_a_load_that_nobody_placed_stays_a_question() -> None:
    """Its force asks what its case asks."""
    claims = [_claim("a", PIVOT, _pin("pivot")), _claim("a", REAR, _pin("rear"))]
    found = bore_forces({"a": [_case(PIVOT, REAR, asks="Where?")]}, claims, {}, LOAD_N)

    assert {one.asks for one in found["a"]["b1"]} == {"Where?"}

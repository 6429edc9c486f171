"""Elements against closed forms: each case names its textbook, all from memory."""

from __future__ import annotations

import os
import tomllib
from collections.abc import Callable

import pytest

from tests.strength.elements.textbook import (
    CASES,
    ORDERS,
    bored,
    cantilever,
    curved,
    pinned,
    ring,
    three_points,
    twisted,
)
from tests.strength.pin_contact import frocht_hill, strip

WHOLE = os.environ.get("FITWRIGHT_WHOLE_GRID", "") not in ("", "0")
"""The finest mesh of the bored plate takes eight seconds."""


@pytest.mark.parametrize(("solve", "edge_mm"), [(cantilever, 3.0), (three_points, 3.0), (ring, 2.0), (curved, 1.4)])
def test_a_bar_and_a_ring_are_within_5_percent(solve: Callable[[float], float], edge_mm: float) -> None:
    """The contract, with edges that the first mesh of a part has."""
    assert solve(edge_mm) < 0.05


@pytest.mark.parametrize(("edge_mm", "within"), [(3.0, 0.15), (1.5, 0.05)])
def test_a_square_bar_is_twisted_to_t_over_0_208_a3(edge_mm: float, within: float) -> None:
    """The finer mesh is nearer."""
    assert twisted(edge_mm) < within


@pytest.mark.parametrize(("edge_mm", "within"), [(0.6, 0.12), *([(0.3, 0.05)] if WHOLE else [])])
def test_a_bore_in_a_pulled_plate_triples_the_stress(edge_mm: float, within: float) -> None:
    """At the surface, with shorter edges within 5 %."""
    assert bored(edge_mm) < within


def test_a_pin_in_a_wide_plate_comes_to_its_closed_form() -> None:
    """0.69 of P / (d t) beside it (Michell 1899): within 5 % with short edges, so that lugs rest on elements."""
    assert pinned(0.5) < 0.05


@pytest.mark.parametrize("share", [0.2, 0.5, 0.7])
def test_the_arc_that_a_pin_presses_comes_to_frocht_and_hill(share: float) -> None:
    """Apart from our elements: within 5 % of their curve (1940), as a loose pin in contact is; one that fills is less."""
    one = strip(share, 90, 40)
    push, reach_deg = one.touched(0.5)

    assert one.factor(one.pressed()) == pytest.approx(frocht_hill(share), rel=0.05)
    assert one.factor(push) == pytest.approx(frocht_hill(share), rel=0.05)
    assert one.factor(one.touched(0.0)[0]) < frocht_hill(share)
    assert reach_deg < 45.0


def test_every_case_comes_to_its_closed_form() -> None:
    """With the shortest edges within 5 %, as ``tests.strength.elements.textbook`` found: the lug is a real pin's.

    Shorter edges are nearer, but where all are within 2 %: there the ends of the plate tell more than the mesh.
    """
    rows = tomllib.loads(ORDERS.read_text(encoding="utf-8"))

    assert set(rows) == set(CASES)
    off = {name: row["off_percent"] for name, row in rows.items()}
    assert {name for name, each in off.items() if each[-1] > 5.0} == set()
    assert {name for name, each in off.items() if each[-1] > each[0] and max(each) > 2.0} == set()

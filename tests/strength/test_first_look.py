"""A first look at a part: a textbook's share where a beam is plain, and never far under that of all cuts."""

from __future__ import annotations

import pytest

from planner.mesh import Solid
from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.first_look import MISSED, share_about
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import LoadCase, PartLoad, Support
from tests.shapes import Manifold, bored_plate, solid_of
from tests.strength.beam.test_beam_pass import SOLID, _at


def _case(push_mm: tuple[float, float, float], held_mm: tuple[float, float, float]) -> tuple[LoadCase, ...]:
    """Return 100 N along y at one place of a part that is held at another."""
    return (known_case([PartLoad(at_mm=push_mm, force_n=(0.0, 100.0, 0.0))], [Support(at_mm=held_mm)], "pushed"),)


@pytest.mark.parametrize("factor", [0.5, 1.0, 2.0])
def test_a_cantilever_takes_what_textbooks_say(factor: float) -> None:
    """100 N at 70 mm: 6 F L / (b h²) = 52.5 of 50 MPa with h = 10 and b = 8, by one over the scale squared."""
    about = share_about(bored_plate(80, 10, 8, []), _case(_at(75.0), _at(5.0)), SOLID, factor)

    assert about == pytest.approx(52.5 / 50.0 / factor**2, rel=0.05)


def _necked() -> Solid:
    """Return a bar of 80 mm with a slit of 0.6 mm between its places, half through."""
    return solid_of(Manifold.cube((80, 10, 8)) - Manifold.cube((0.6, 5, 8)).translate((43.3, 5, 0)))


def _bent() -> Solid:
    """Return an arm that goes round a corner."""
    return solid_of(Manifold.cube((40, 8, 8)) + Manifold.cube((8, 40, 8)))


def _wide() -> Solid:
    """Return a plate that takes a load up over less than its width."""
    return solid_of(Manifold.cube((60, 5, 80)))


@pytest.mark.parametrize(
    ("solid", "push_mm", "held_mm"),
    [
        (_necked(), (75.0, 5.0, 4.0), (5.0, 5.0, 4.0)),
        (_bent(), (36.0, 4.0, 4.0), (4.0, 36.0, 4.0)),
        (_wide(), (50.0, 2.5, 40.0), (10.0, 2.5, 40.0)),
    ],
)
def test_what_it_misses_of_the_worst_cut_is_covered(
    solid: Solid, push_mm: tuple[float, float, float], held_mm: tuple[float, float, float]
) -> None:
    """A slit between its places, a bend, and a load that enters at one place of a wide plate."""
    cases = _case(push_mm, held_mm)
    about, every = share_about(solid, cases, SOLID, 1.0), weakest(solid, cases, SOLID)

    assert about is not None
    assert every is not None
    assert every.share_percent[KNOTS.index(1.0)] / 100.0 < MISSED * about

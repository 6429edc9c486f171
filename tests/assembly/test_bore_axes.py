"""Axes of bores, and patterns that two parts have in common."""

from __future__ import annotations

import math

import pytest

from planner.assembly.bore_axes import alike, axes_of, meet, runs_of
from planner.survey import Bore


def _bore(name: str, x: float, y: float, *, z: float = 0.0, depth: float = 6.0) -> Bore:
    """Return an upright bore of 4 mm."""
    return Bore(
        id=name,
        diameter_mm=4.0,
        drawn_diameter_mm=4.0,
        facets_n=32,
        depth_mm=depth,
        axis=(0.0, 0.0, 1.0),
        centre_mm=(x, y, z),
        through=True,
        step_of=None,
        coverage_deg=360.0,
        edge_wall_mm=None,
    )


TRIANGLE = [(0.0, 0.0), (20.0, 0.0), (0.0, 12.0)]


def _placed(turn_deg: float, flip: int, shift: tuple[float, float]) -> list[tuple[float, float]]:
    """Return the triangle turned, mirrored and moved."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return [(c * x - s * y * flip + shift[0], s * x + c * y * flip + shift[1]) for x, y in TRIANGLE]


def test_bores_on_one_line_are_one_axis() -> None:
    """Two lugs with a bore each, 10 mm apart along z, are one axis; a bore 5 mm beside is another."""
    axes = axes_of([_bore("b1", 0, 0), _bore("b2", 5, 0), _bore("b3", 0, 0, z=10.0)])

    assert [[bore.id for bore in axis.bores] for axis in axes] == [["b1", "b3"], ["b2"]]


@pytest.mark.parametrize(("apart_most_mm", "pieces_n"), [(math.inf, 2), (5.0, 3), (2.0, 5)])
def test_one_piece_goes_through_bores_that_follow_each_other(apart_most_mm: float, pieces_n: int) -> None:
    """Cheeks, levers and a spacer 6 mm deep on one axis, 4, 4 and 14 mm apart; a cover drawn in a cheek's place is alone."""
    on_axis = [("cheek", 0.0), ("lever", 10.0), ("far cheek", 40.0), ("spacer", 20.0), ("cover", 1.0)]
    runs = runs_of([(name, _bore(name, 0, 0, z=z)) for name, z in on_axis], apart_most_mm)

    assert len(runs) == pieces_n


@pytest.mark.parametrize(("in_fork_mm", "pieces_n"), [(0.0, 4), (10.0, 2)])
def test_a_lever_s_room_in_its_fork_joins_no_two_forks(in_fork_mm: float, pieces_n: int) -> None:
    """Two forks side by side, 10 mm between their cheeks and 10 mm between the forks: a piece each, never one for both."""
    cheeks = [("left", 0.0), ("left", 16.0), ("right", 32.0), ("right", 48.0)]
    runs = runs_of([(name, _bore(name, 0, 0, z=z)) for name, z in cheeks], 5.0, in_fork_mm)

    assert len(runs) == pieces_n


@pytest.mark.parametrize(("turn_deg", "flip"), [(0.0, 1), (75.0, 1), (190.0, -1)])
def test_a_pattern_is_found_however_it_lies(turn_deg: float, flip: int) -> None:
    """Three axes of a triangle among five, turned and mirrored: just those three."""
    here = [(50.0, 50.0), *_placed(turn_deg, flip, (3.0, -8.0)), (70.0, 55.0)]
    axes = axes_of([_bore(f"b{k}", x, y) for k, (x, y) in enumerate(here)])
    pattern = axes_of([_bore(f"p{k}", x, y) for k, (x, y) in enumerate(TRIANGLE)])

    assert alike(axes, pattern) == [frozenset({1, 2, 3})]


def test_one_axis_alone_says_nothing() -> None:
    """Each is then as good as any other."""
    axes = axes_of([_bore("b1", 0, 0), _bore("b2", 20, 0)])

    assert alike(axes, axes[:1]) == [frozenset({0}), frozenset({1})]


@pytest.mark.parametrize(("z", "follows"), [(6.0, True), (3.0, False)])
def test_bores_of_two_parts_follow_each_other(z: float, follows: bool) -> None:
    """Two bores of 6 mm meet end to end; half within each other their parts would overlap."""
    one, other = axes_of([_bore("b1", 0, 0)])[0], axes_of([_bore("b2", 0.1, 0, z=z)])[0]

    assert meet(one, other) == follows

"""Bores in groups of one size: steps belong to their bore, forks are told, what was stated is left out."""

from __future__ import annotations

from manifold3d import Manifold

from planner.assembly.doubts.bore_groups import BoreGroup, bore_groups
from planner.survey import survey
from tests.assembly.by_hand.truths import scene
from tests.conftest import MakeJob
from tests.mechanism.cord.path.known_parts import bore
from tests.shapes import cylinder, solid_of


def test_sizes_within_the_matching_share_are_one_group() -> None:
    """The linkage's bores of 3.0 and 3.1 mm are one group; 2.5 mm through and blind are two."""
    groups = bore_groups(*scene("linkage"))

    assert [group.id for group in groups][:3] == ["bores-2.5-through", "bores-2.5-blind", "bores-3.1-through"]
    assert {round(bore.drawn_diameter_mm, 1) for _, bore in groups[2].members} == {3.0, 3.1}


def test_wider_steps_go_with_the_bore_below_them() -> None:
    """The seats of 9 mm over the linkage's bores of 5 mm are no group of their own."""
    five = next(group for group in bore_groups(*scene("linkage")) if group.size_mm == 5.0)

    assert {round(bore.drawn_diameter_mm, 1) for _, bore in five.seats} == {9.0}
    assert len(five.seats) == len(five.members) == 6


def test_a_fork_with_its_lever_is_told() -> None:
    """The Heron's deck holds the jaw between two bores of 5.3 mm: four of the five bores lie in forks."""
    pivot = next(group for group in bore_groups(*scene("heron")) if group.size_mm == 5.3)

    assert pivot.lever
    assert pivot.forked_share == 0.8


def test_the_end_of_a_screw_below_its_nut_is_no_bore_of_its_own(make_job: MakeJob) -> None:
    """A bore of 3.4 mm down to a nut's pocket in the side, and 10 mm on, blind: one group; alone it would be a pilot."""
    post = Manifold.cube((20.0, 20.0, 30.0)) - cylinder(3.4, 18.0, 96).translate((10, 10, 12))
    slot = Manifold.cube((5.7, 30.0, 2.8), True).translate((10, 20, 23.4))
    text = '[job]\nname = "x"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    with_nut, without = solid_of(post - slot, "a"), solid_of(post, "a")

    (group,) = bore_groups(make_job(text, a=with_nut), {"a": survey(with_nut)})
    assert (group.id, len(group.members)) == ("bores-3.4-through", 2)
    (alone,) = bore_groups(make_job(text, a=without), {"a": survey(without)})
    assert alone.id == "bores-3.4-blind"


def test_forks_side_by_side_have_a_screw_each_where_none_is_that_long() -> None:
    """Two forks of 23 mm, 2 mm apart: an M3 is sold up to 30 mm (ISO 4762, table 1, from memory); an M5 of 60 does."""
    fork = [bore(n, 0.0, 0.0, z, 3.2, 3.0) for n, z in enumerate((0.0, 20.0, 25.0, 45.0), start=1)]
    levers = [(name, bore(1, 0.0, 0.0, z, 3.2, 16.0)) for name, z in (("a", 10.0), ("b", 35.0))]
    group = BoreGroup(
        size_mm=3.2,
        through=True,
        members=(*(("palm", one) for one in fork), *levers),
        seats=(),
        forked_share=0.6,
        lever_mm=17.0,
    )
    copies = {"palm": 1, "a": 1, "b": 1}

    assert group.pieces_n(copies, "machine-screw", 30.0) == 2
    assert group.pieces_n(copies, "machine-screw", 60.0) == group.pieces_n(copies, "machine-screw") == 1

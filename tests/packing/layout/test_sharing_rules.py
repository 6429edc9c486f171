"""Which parts share a plate: bundles kept together, parts kept apart, one tall piece a plate."""

from __future__ import annotations

import shapely

from planner.packing.layout.packed_unit import HERE, Unit
from planner.packing.layout.sharing_rules import NO_RULES, Rules


def _unit(*parts: str, bundle: int | None = None) -> Unit:
    """Return a unit that holds one copy of some parts."""
    copies = tuple(((part, 1), HERE) for part in parts)
    return Unit(copies=copies, shape=shapely.box(0, 0, 1, 1), kind=parts[0], order=0, bundle=bundle)


def test_parts_kept_apart_share_no_plate_but_with_their_like() -> None:
    """Of a set kept apart two copies of one part may lie together, two parts may not, also inside another part."""
    rules = Rules(apart=(frozenset({"lever", "cup"}),))

    assert rules.allow([_unit("lever")], _unit("lever"))
    assert rules.allow([_unit("lever")], _unit("strap"))
    assert not rules.allow([_unit("lever")], _unit("cup"))
    assert not rules.allow([_unit("ring", "lever")], _unit("cup"))
    assert NO_RULES.allow([_unit("lever")], _unit("cup"))


def test_a_plate_takes_one_tall_piece() -> None:
    """One tall piece lies beside any low ones; a second one does not."""
    rules = Rules(tall=frozenset({"mast"}))

    assert rules.allow([_unit("cup")], _unit("mast"))
    assert not rules.allow([_unit("cup"), _unit("mast")], _unit("mast"))


def test_a_bundle_stands_at_the_place_of_its_first() -> None:
    """Units of one bundle are one row; the others stay alone and in order."""
    units = [_unit("a"), _unit("b", bundle=0), _unit("c"), _unit("d", bundle=0)]

    assert NO_RULES.bundled(units, [0, 1, 2, 3]) == [[0], [1, 3], [2]]
    assert Rules(together=(frozenset({"b", "d"}),)).bundle_of("d") == 0
    assert Rules(together=(frozenset({"b", "d"}),)).binds("a") is False


def test_rules_leave_no_fewer_beds_than_parts_kept_apart_and_tall_pieces() -> None:
    """By hand: three parts of one set need three beds however many copies they have; two tall pieces need two."""
    apart = Rules(apart=(frozenset({"a", "b", "c"}), frozenset({"a", "d"})))

    assert apart.beds_least([_unit("a"), _unit("b"), _unit("b"), _unit("c"), _unit("e")]) == 3
    assert apart.beds_least([_unit("a"), _unit("e")]) == 1
    assert Rules(tall=frozenset({"mast"})).beds_least([_unit("mast"), _unit("mast"), _unit("cup")]) == 2
    assert NO_RULES.beds_least([_unit("a"), _unit("b")]) == 1

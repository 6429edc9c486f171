"""Access for a driver: an order in which every screw is free, where there is one."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from planner.assembly import Ways
from planner.output.bench.assembly_joints import FIRM, Joint
from planner.output.bench.driver_access import blocked, grows, with_free_access


def _joint(name: str, *parts: str) -> Joint:
    """Return a screwed joint."""
    return Joint(name=f"hardware: {name}", parts=parts, stage=FIRM, what=name, check="sliding")


def _way(name: str, *over: str) -> Ways:
    """Return ways with some parts at one end."""
    return Ways(hardware=name, axes=((frozenset(over), frozenset()),), both=True, known=frozenset(over))


def test_where_no_order_is_free_the_covering_step_says_so() -> None:
    """Two plates, each over the other's screw: no order helps, the order stays, and both are named as blocked."""
    joints = [_joint("one", "base", "p"), _joint("two", "base", "q")]
    ways = {"one": _way("one", "q"), "two": _way("two", "p")}

    assert with_free_access(joints, ways) == joints
    assert set(blocked(joints, ways)) == {"hardware: two"}


@given(st.permutations(range(6)))
def test_any_stack_of_lids_is_put_on_from_below(order: list[int]) -> None:
    """Six plates, each screwed to a base and over all screws below it: the one free order is found from any other."""
    joints = [_joint(str(k), "base", f"plate {k}") for k in order]
    ways = {str(k): _way(str(k), *(f"plate {above}" for above in range(k + 1, 6))) for k in order}
    found = with_free_access(joints, ways)

    assert [joint.what for joint in found] == [str(k) for k in range(6)]
    assert grows(found)


def test_a_piece_is_made_apart_where_what_joins_it_would_cover_its_screw() -> None:
    """A rail slides into a saddle over the screw that holds the saddle: the saddle is screwed on first, apart."""
    joints = [
        Joint(name="joint: rail", parts=("deck", "saddle"), stage=FIRM, what="rail", check="slid"),
        _joint("jaw", "deck", "jaw"),
        _joint("saddle", "saddle", "cuff"),
    ]
    ways = {"saddle": _way("saddle", "deck"), "jaw": _way("jaw", "cuff")}

    assert [joint.what for joint in with_free_access(joints, ways)] == ["jaw", "saddle", "rail"]

"""The way from a tip to the body: what lies on it, what lies beside it, and what shares it (graphs by hand)."""

from __future__ import annotations

import networkx as nx
import pytest

from planner.assembly import claims_of
from planner.plan import Prepared
from planner.strength.hung.way_to_body import WayToBody, way_to_body
from planner.strength.loads.part_load import Support


def _way(*edges: str, worn: str = "w") -> WayToBody:
    """Return the way from t to what is worn, parts of one letter."""
    return WayToBody(tip="t", worn=frozenset(worn), graph=nx.Graph([*map(tuple, edges)]), claims=())


def _supports(*names: str) -> list[Support]:
    """Return where a part meets others."""
    return [Support(at_mm=(float(k), 0.0, 0.0), over=name) for k, name in enumerate(names)]


@pytest.mark.parametrize(
    ("edges", "between"),
    [
        (("ta", "aw"), "taw"),
        (("ta", "aw", "ax", "xy"), "taw"),
        (("ta", "ab", "ac", "bd", "cd", "dw"), "tabcdw"),
        (("ta", "aw", "ax", "xy", "ya"), "taw"),
    ],
)
def test_parts_on_a_way_that_goes_through_each_once_carry(edges: tuple[str, ...], between: str) -> None:
    """A chain; one with a twig; two ways side by side; a loop that hangs on one part."""
    assert _way(*edges).between == set(between)


def test_where_nothing_worn_is_joined_all_may_carry() -> None:
    """Nothing tells then where the device is held."""
    way = _way("ta", "ax", "uw")
    assert (set(way.between), way.known) == ({"t", "a", "x"}, False)


def test_a_part_of_two_side_by_side_brings_the_load_from_the_tip_and_shares_it() -> None:
    """Of b beside c, from a to d: a brings it, d holds; x, on which nothing hangs, does neither."""
    split = _way("ta", "ab", "ac", "bd", "cd", "dw", "bx").split("b", _supports("a", "d", "x"))

    assert split is not None
    assert ([one.over for one in split.brings], [one.over for one in split.holds], split.shared) == (["a"], ["d"], True)


def test_a_part_all_of_which_must_pass_shares_with_none() -> None:
    """The middle of a chain; what is worn is held by its straps."""
    way = _way("ta", "aw", "wx")
    arm, worn = way.split("a", _supports("t", "w")), way.split("w", _supports("a", "slot", "x"))

    assert arm is not None
    assert worn is not None
    assert (arm.shared, [one.over for one in arm.holds]) == (False, ["w"])
    assert [one.over for one in worn.holds] == ["slot"]
    assert way.split("t", _supports("a")) is None


def test_the_herons_yoke_and_anchors_carry_no_weight_at_its_jaws(heron_ready: Prepared) -> None:
    """Jaw, deck, saddle and cuff do; anchors, links and yoke close a loop on the deck, and no body holds them (statics).

    A weight that was passed on to them without regard to that took 152 % of the yoke's strength.
    """
    claims = claims_of(heron_ready.job, heron_ready.surveys).claims
    assert way_to_body(heron_ready.job, claims, "jaw").between == {"jaw", "deck", "saddle", "cuff"}

"""What elements say of a part, and how many times its share a part may take where they do not settle it."""

from __future__ import annotations

from dataclasses import replace

from planner.strength.told_by_elements import NO_ANSWER_RATIO, ByElements


def test_what_a_mesh_may_hide_counts_where_it_does_not_stand() -> None:
    """A change of 2 % with corners that may hide 2.5 times the share: 2.5 times; one mesh alone: as without an answer."""
    hides = ByElements(factor=1.0, beam_percent=20.0, share_percent=25.0, converged_percent=2.0, hides_ratio=2.5)
    once = replace(hides, meshes_n=1, converged_percent=100.0, unknowns_n=250_000)

    assert (hides.doubt_ratio, once.doubt_ratio) == (2.5, NO_ANSWER_RATIO)
    assert "may hide 2.5 times the share" in hides.doubt
    assert "one mesh of 250000 unknowns took all that may be solved" in once.doubt
    assert replace(hides, stands=True).doubt_ratio == 1.0


def test_the_greater_of_both_counts() -> None:
    """Elements leave out what lies near loads: under the beam pass's share they mend nothing."""
    assert ByElements(factor=1.0, beam_percent=20.0, share_percent=5.0, stands=True).ratio == 1.0

"""Thin walls are judged by how far they reach: a blemish is a caution, a wall that carries is not."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.finding import Verdict
from planner.job import Limits
from planner.rules.fit.walls.thin_wall_rule import ThinWallRule
from planner.sourced import Sourced
from planner.survey import Below, ThinPlace


def _sourced(value: float) -> Sourced:
    """Return a number of these tests."""
    return Sourced(value=value, low=value, high=value, kind="exact", source="test")


class _Few:
    """The limits that the rule reads."""

    wall_plain_lines = _sourced(2.0)
    blemish_lines = _sourced(3.0)
    blemish_share = _sourced(0.1)
    lip_lines = _sourced(10.0)
    lip_share = _sourced(0.5)


def _rule(length_mm: float, *, beside: tuple[str, ...] = (), share: float = 0.01, lines: float = 2.0) -> ThinWallRule:
    """Return the rule of a place 0.5 mm thin that grows up to 0.9 mm, in a part 4 mm thick elsewhere."""
    below = tuple(
        Below(thickness_mm=t, area_mm2=length_mm * t, length_mm=length_mm * t, breadth_mm=0.5 * t, share=share)
        for t in (0.56, 0.9, 2.0, 4.0)
    )
    place = ThinPlace(thickness_mm=0.5, at_mm=(1, 2, 3), between="a and b", beside=beside, below=below)
    few: Limits = _Few()  # type: ignore[assignment]
    return ThinWallRule(
        part="p",
        duty="shell",
        duty_stated=True,
        places=(place,),
        line_width_mm=0.45,
        lines=_sourced(lines),
        limits=few,
    )


def test_a_blemish_is_a_caution_and_a_long_thin_wall_is_not() -> None:
    """0.9 mm long it goes with a caution, 9 mm long it does not, and both carry their extent."""
    small, long = _rule(1.0).at(1.0), _rule(10.0).at(1.0)

    assert (small.verdict, bool(small.caution)) == (Verdict.GO, True)
    assert long.verdict is Verdict.NO_GO
    assert long.extent is not None
    assert long.extent.length_mm == pytest.approx(9.0)


def test_a_blemish_beside_a_bore_or_across_the_part_is_a_wall() -> None:
    """However small, it counts where it lies beside a bore or takes half of the section."""
    assert _rule(1.0, beside=("b1",)).at(1.0).verdict is Verdict.NO_GO
    assert _rule(1.0, share=0.5).at(1.0).verdict is Verdict.NO_GO
    assert _rule(1.0, share=0.1, lines=3.0).at(1.0).verdict is Verdict.HOLD


def test_a_short_lip_of_one_line_is_asked_about_where_the_part_carries() -> None:
    """0.5 mm thick and 4.05 mm long: a cover goes with a caution, a load part is held; under one line it is a wall.

    A published finger that its users print and use has such lips beside its screw heads: no part of it is refused.
    """
    cover, load = _rule(4.5), _rule(3.0, lines=3.0)

    assert (cover.at(1.0).verdict, "one line thick" in cover.at(1.0).caution) == (Verdict.GO, True)
    assert (load.at(1.0).verdict, "pull or press" in load.at(1.0).question) == (Verdict.HOLD, True)
    assert cover.at(0.8).verdict is Verdict.NO_GO
    assert _rule(4.5, share=0.5).at(1.0).verdict is Verdict.NO_GO
    assert _rule(4.5, beside=("b1",)).at(1.0).verdict is Verdict.NO_GO


@pytest.mark.parametrize("lines", [2.0, 3.0])
@pytest.mark.parametrize("length", [0.5, 0.95, 1.6, 3.0, 10.0])
def test_between_its_turns_the_verdict_stays(length: float, lines: float) -> None:
    """At 4,000 scales the verdict is that of the middle of the span between the turns about it."""
    rule = _rule(length, lines=lines)
    ends = np.array([0.05, *rule.turns(), 5.0])
    for s in np.linspace(0.1, 4.0, 4000):
        low, high = ends[ends <= s].max(), ends[ends > s].min()
        if min(s - low, high - s) > 1e-9:
            assert rule.at(float(s)).verdict is rule.at(float((low + high) / 2)).verdict, (s, low, high)


def test_a_duty_that_nobody_stated_is_asked_where_a_plainer_one_would_do() -> None:
    """Three lines are 1.35 mm, two 0.9: a wall of 1.0 would do as a cover, one of 0.5 as nothing."""
    thin = _rule(10.0, lines=3.0)
    does = ThinPlace(thickness_mm=1.0, at_mm=(1, 2, 3), between="a and b", beside=(), below=thin.places[0].below)
    asked = replace(thin, duty="load", duty_stated=False, places=(does,))

    assert "As shell or cover its wall of 1.00 mm would do" in asked.at(1.0).question
    assert replace(asked, places=thin.places).at(1.0).question == ""
    assert replace(asked, duty_stated=True).at(1.0).question == ""

"""Where a drill comes from and how far it reaches, worked out by hand with the lengths of ISO 235."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import pytest

from planner.assembly import BoreEnd
from planner.finding import Verdict
from planner.rules.fit.bores.bore_reach import BoreReach
from planner.survey import Bore


@dataclass(frozen=True)
class To4:
    """A bore that is drilled to 4 mm up to 120 %: a jobber drill is 75 mm long and has flutes of 43, a long one 78."""

    drills_mm: tuple[float, ...] = (4.0,)

    def drill_mm(self, s: float) -> float | None:
        """Return 4 mm."""
        return 4.0 if s <= 1.2 else None

    def turns(self) -> tuple[float, ...]:
        """Return where it ends to be drilled."""
        return (1.2,)


def reach(deep_mm: float, up: tuple[float | None, float], down: tuple[float | None, float]) -> BoreReach:
    """Return the rule for a bore along z; each mouth by its free way and what stands beside it, in mm."""
    bore = Bore(
        id="b1",
        diameter_mm=3.8,
        drawn_diameter_mm=3.8,
        facets_n=48,
        depth_mm=deep_mm,
        axis=(0.0, 0.0, 1.0),
        centre_mm=(0.0, 0.0, 0.0),
        through=True,
        step_of=None,
        coverage_deg=360.0,
        edge_wall_mm=3.0,
    )
    ends = (
        BoreEnd(way=(0.0, 0.0, 1.0), free_mm=up[0], beside_mm=up[1]),
        BoreEnd(way=(0.0, 0.0, -1.0), free_mm=down[0], beside_mm=down[1]),
    )
    return BoreReach(part="a", feature="b1", bore=bore, drilled=To4(), ends=ends)


OPEN: tuple[float | None, float] = (None, 0.0)
FLOOR: tuple[float | None, float] = (0.0, 0.0)
WALL: tuple[float | None, float] = (30.0, 30.0)


def test_a_bore_open_at_both_mouths_is_reached() -> None:
    """43 mm of flutes pass 10 mm."""
    assert reach(10.0, OPEN, OPEN).at(1.0).verdict is Verdict.GO
    assert reach(10.0, OPEN, FLOOR).at(1.0).verdict is Verdict.GO


def test_a_wall_before_one_mouth_leaves_the_other() -> None:
    """No drill of 75 mm stands in 30 mm of room: from below only."""
    found = reach(10.0, WALL, OPEN).at(1.0)

    assert (found.verdict, found.remedy) == (Verdict.GO_WITH_WORK, "drill it from its -z side only")
    assert "on its +z side a wall stands in the drill's way, 30.0 mm off" in found.why


def test_a_blind_bore_behind_a_wall_is_held_and_never_refused() -> None:
    """Nothing reaches it: a hold with a question; where it is not drilled, at 130 %, nothing has to."""
    rule = reach(10.0, WALL, FLOOR)

    assert rule.at(1.0).verdict is Verdict.HOLD
    assert "short reamer" in rule.at(1.0).question
    assert rule.at(1.3).verdict is Verdict.GO


def test_no_mouth_at_all_is_a_hold() -> None:
    """A bore that is shut at both ends is reached by nothing."""
    assert reach(10.0, FLOOR, FLOOR).at(1.0).verdict is Verdict.HOLD


@pytest.mark.parametrize(
    ("deep", "beside", "verdict"),
    [
        (43.0, 0.0, Verdict.GO),
        (43.1, 0.0, Verdict.GO_WITH_WORK),
        (10.0, 33.1, Verdict.GO_WITH_WORK),
        (78.0, 0.0, Verdict.GO_WITH_WORK),
        (78.1, 0.0, Verdict.HOLD),
        (10.0, 68.1, Verdict.HOLD),
    ],
)
def test_depth_and_what_keeps_the_chuck_off_count_together(deep: float, beside: float, verdict: Verdict) -> None:
    """43 mm of flutes for a jobber drill of 4 mm (ISO 235), 78 for a long one (ISO 494), from memory."""
    assert reach(deep, (None, beside), FLOOR).at(1.0).verdict is verdict


def test_the_verdict_changes_only_at_its_turns() -> None:
    """Between two turns the verdict is one: 40 mm deep with 80 mm of room above, over all sizes."""
    rule = reach(40.0, (80.0, 20.0), FLOOR)
    turns = sorted({0.3, *rule.turns(), 3.0})
    for low, high in pairwise(turns):
        inside = {rule.at(low + (high - low) * k / 10).verdict for k in range(1, 10)}
        assert len(inside) == 1, (low, high, inside)

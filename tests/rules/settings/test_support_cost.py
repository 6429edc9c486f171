"""Support and bridges: numbers on both sides of each limit, worked out by hand, and what they ask for."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from planner.finding import Vec3, Verdict
from planner.job import Job, read_material
from planner.rules.settings.setting_rule import Case
from planner.rules.settings.support_cost import bridges, lying_bores, support_cost, support_inside, support_on_skin
from planner.scale import DRAWN, Scale
from planner.sourced import stated
from planner.survey import Survey, survey
from tests.shapes import bored_plate

UP, DOWN = (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)
BARE = {"deposited_mm3": 10_000.0, "support_mm3": 0.0, "supported_mm2": 0.0, "bridge_span_mm": 0.0}


def _case(job: Job, survey: Survey | None = None, down: Vec3 = DOWN, scale: Scale = DRAWN, **layers: Any) -> Case:
    """Return the case of the block with some numbers of its layers."""
    estimate: Any = SimpleNamespace(**{**BARE, "kinds_s": {"support": 600.0}, "support_inside_mm3": {}, **layers})
    return Case(
        job=job,
        material=read_material("petg", Path()),
        surveys={} if survey is None else {"a": survey},
        estimates={"a": estimate},
        downs={"a": down},
        scale=scale,
    )


@pytest.mark.parametrize(("support_mm3", "cautious"), [(2490.0, False), (2510.0, True)])
def test_support_is_told_with_its_grams_and_minutes_and_warned_of_over_a_quarter(
    block: Job, support_mm3: float, cautious: bool
) -> None:
    """2500 of 10000 mm3 is 25 %; PETG of 1.27 g/cm3 makes 3.2 g; 600 s are 10 min; 4 cm2 ask for 2 + 4 x 0.5 = 4 min."""
    (found,) = support_cost(_case(block, support_mm3=support_mm3, supported_mm2=400.0))

    assert found.measured == pytest.approx(support_mm3 / 100.0)
    assert "support of 3.2 g and 10 min a copy, under 4.0 cm² of it (about 4 min to take off" in found.why
    assert (found.verdict, bool(found.caution)) == (Verdict.GO, cautious)


def test_a_part_without_support_is_told_nothing_of_it(block: Job) -> None:
    """Neither its cost, nor what it does inside, nor on skin."""
    case = _case(block)

    assert [*support_cost(case), *support_inside(case), *support_on_skin(case), *bridges(case)] == []


def test_support_comes_out_of_a_straight_opening_and_not_out_of_a_bent_one(block: Job) -> None:
    """Under 5 mm3 falls out by itself; more is work in a bore, and ends it in a bent channel."""
    inside = {"b1": 4.9, "b2": 5.1, "channel cord": 5.1}
    found = support_inside(_case(block, support_mm3=50.0, support_inside_mm3=inside))

    assert [(one.feature, one.verdict) for one in found] == [
        ("b1", Verdict.GO),
        ("b2", Verdict.GO_WITH_WORK),
        ("channel cord", Verdict.NO_GO),
    ]


@pytest.mark.parametrize(
    ("toward", "verdict", "cautious"),
    [(DOWN, Verdict.GO_WITH_WORK, False), (UP, Verdict.GO, False), (None, Verdict.GO, True)],
)
def test_support_on_skin_is_work_where_the_skin_side_faces_down(
    block: Job, toward: Vec3 | None, verdict: Verdict, cautious: bool
) -> None:
    """Down onto it: smooth and pad. Away from it: nothing. Not told: a caution that asks for the side."""
    job = replace(block, parts=(replace(block.parts[0], skin_side=True, skin_toward=toward),))
    (found,) = support_on_skin(_case(job, support_mm3=50.0))

    assert (found.verdict, bool(found.caution)) == (verdict, cautious)


@pytest.mark.parametrize(
    ("down", "percent", "told"), [((0.0, -1.0, 0.0), 100.0, 7.9), ((0.0, -1.0, 0.0), 110.0, 8.69), (DOWN, 110.0, None)]
)
def test_the_crown_of_a_wide_bore_sags_where_it_lies(
    block: Job, down: Vec3, percent: float, told: float | None
) -> None:
    """7.9 mm keep their shape up to 8; at 110 % they are 8.69 and sag; a bore that stands has no crown."""
    found = lying_bores(
        _case(block, survey(bored_plate(40, 30, 10, [(20, 15, 7.9, 48)])), down=down, scale=Scale(percent))
    )

    assert [one.measured for one in found] == ([] if told is None else [pytest.approx(told, abs=0.01)])
    assert [bool(one.caution) for one in found] == ([] if told is None else [told > 8.0])


def test_the_speed_over_air_is_that_of_bridges_and_of_outer_contours_where_none_is_set(block: Job) -> None:
    """Each side of the limit by the number that is compared; the fan is asked of long spans alone."""
    most = block.limits.of("bridge.speed", "most_mm_s").value
    short = block.limits.of("bridge.cool", "short_mm").value
    outer = replace(block.settings, bridge_speed_mm_s=None, outer_contour_speed_mm_s=stated(most + 1.0))
    own = replace(outer, bridge_speed_mm_s=stated(most), fan_percent=stated(0.0))
    fast = bridges(_case(replace(block, settings=outer), bridge_span_mm=short + 1.0))
    slow = bridges(_case(replace(block, settings=own), bridge_span_mm=short + 1.0))
    brief = bridges(_case(replace(block, settings=own), bridge_span_mm=short))

    assert (fast[0].rule, fast[0].measured, fast[0].verdict) == ("bridge.speed", most + 1.0, Verdict.GO_WITH_WORK)
    assert slow[0].verdict is Verdict.GO
    assert [bool(one[1].caution) for one in (slow, brief)] == [True, False]

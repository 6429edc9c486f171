"""Loaded parts of the report: what is shown agrees with what the rules found."""

from __future__ import annotations

import numpy as np
import pytest

from planner.job import kind_of
from planner.output.strength_view.loaded_part import loaded_parts, unloaded_words
from planner.plan import Plan
from tests.output.conftest import MakePlan


def test_every_loaded_part_is_shown_with_its_own_finding(plan: Plan) -> None:
    """As many as the rules of strength speak of, weakest first, each at the greatest share that was found."""
    shown = loaded_parts(plan)
    found: dict[str, float] = {}
    for finding in plan.findings:
        if kind_of(finding.rule).gives == "strength" and finding.measured is not None:
            found[finding.part] = max(found.get(finding.part, 0.0), finding.measured)

    assert {one.name: one.finding.measured for one in shown} == found
    assert [one.finding.measured for one in shown] == sorted(found.values(), reverse=True)


def test_no_place_is_shown_above_the_share_that_was_found(plan: Plan) -> None:
    """Colours and further places stay under the weakest place's own share, which lies in the part's box."""
    for one in loaded_parts(plan):
        assert one.paint is not None
        assert one.finding.measured is not None
        shares = [percent for percent, _ in one.places]
        assert np.nanmax(one.paint.values_percent) <= 1.02 * one.finding.measured
        assert shares[0] == max(shares) == one.finding.measured
        low, high = one.part.posed.bounds_mm
        for _, at in one.places:
            assert ((at > low - 0.1) & (at < high + 0.1)).all()


def test_the_section_goes_through_its_place(plan: Plan) -> None:
    """Of the jaw: a closed outline within 1 mm of the weakest place by beam formulas, at size."""
    jaw = next(one for one in loaded_parts(plan) if one.name == "jaw")
    place = jaw.places[0][1]
    away = min(float(np.linalg.norm(ring - place, axis=1).min()) for ring in jaw.section)

    assert away < 1.0
    assert jaw.section_percent == pytest.approx(jaw.finding.measured)
    assert "only finite elements tell" in jaw.bend_said


def test_a_device_without_a_loaded_part_says_so(make_plan_of: MakePlan) -> None:
    """A cover alone: nothing is shown, and the reason is told."""
    plan = make_plan_of()

    assert loaded_parts(plan) == ()
    assert "no part carries load" in unloaded_words(plan, ())


def test_a_loaded_part_without_a_load_says_what_to_state(make_plan_of: MakePlan) -> None:
    """Its duty is load, the job states none: no place, no colour, and the key to state."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    (one,) = loaded_parts(make_plan_of(text=text))

    assert (one.places, one.paint, one.section) == ((), None, ())
    assert one.unknown == "no load is stated"
    assert "load_n" in one.finding.remedy

"""What a pose costs: terms that are told and add up, and a choice that follows them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Vec3
from planner.job import Part, read_material, read_pose_weights, read_printer, read_settings
from planner.layers import RoughEstimate, rough_estimate
from planner.mesh import Solid, posed
from planner.pose import CostTerm, PoseChoice, choose_pose
from planner.pose.pose_cost import pose_cost
from planner.sourced import stated
from planner.survey import Survey, survey
from tests.shapes import cylinder, solid_of

HERE = Path()
SKIN = (0.0, 0.0, -1.0)


def _cuff(length: float = 100.0, outer: float = 70.0, inner: float = 64.0) -> Solid:
    """Return a half pipe that opens toward -z, with two bores of 5 mm through its crown."""
    pipe = cylinder(outer, length, 96) - cylinder(inner, length + 4, 96).translate((0, 0, -2))
    half = pipe.rotate((0, 90, 0)).split_by_plane((0, 0, 1), 0)[0]
    for at in (length / 3, 2 * length / 3):
        half -= cylinder(5, 200, 48).translate((at, 0, -50))
    return solid_of(half)


def _part(**about: object) -> Part:
    """Return a shell that lies on skin with its inner side."""
    return replace(Part(name="p", mesh=HERE, duty="shell", skin_side=True, skin_toward=SKIN), **about)  # type: ignore[arg-type]


def _making() -> dict[str, object]:
    """Return what it is printed with."""
    return {
        "settings": read_settings("standard-0.4", HERE),
        "printer": read_printer("bench-220", HERE),
        "material": read_material("petg", HERE),
    }


def _chosen(solid: Solid, part: Part) -> PoseChoice:
    """Choose its pose."""
    return choose_pose(part, survey(solid), solid, **_making())  # type: ignore[arg-type]


def _made(solid: Solid, down: Vec3) -> RoughEstimate:
    """Estimate it roughly."""
    return rough_estimate(posed(solid, down), **_making())  # type: ignore[arg-type]


def _terms(solid: Solid, part: Part, down: Vec3) -> dict[str, CostTerm]:
    """Return the terms of one of its poses by name."""
    seen: Survey = survey(solid)
    pose = next(pose for pose in seen.poses if sum(a * d for a, d in zip(pose.down, down, strict=True)) > 0.999)
    terms = pose_cost(part, seen, pose, _made(solid, down), weights=read_pose_weights(), warp_share=0.0)
    return {term.for_it: term for term in terms}


@pytest.mark.parametrize("told", [SKIN, None])
def test_upright_bores_do_not_buy_support_on_the_skin_side(told: Vec3 | None) -> None:
    """A cuff of 100 x 70 stands on its end, without support: two bores to drill cost less than 12 cm3 on the skin.

    On its open edges its bores stand upright, and by full estimates it takes 35 min and 12 cm3 of support more.
    """
    assert abs(_chosen(_cuff(), _part(skin_toward=told)).down[0]) > 0.99


def test_the_terms_say_what_support_on_the_skin_side_costs() -> None:
    """On its edges: support and skin scars are told and cost something; on its end both are nothing, the bores not."""
    edges, end = (_terms(_cuff(), _part(), down) for down in ((0.0, 0.0, -1.0), (1.0, 0.0, 0.0)))
    support, skin, bores = (
        "it needs the least support",
        "its skin side stays free of support",
        "its bores stand upright and print round",
    )

    assert "cm³ of support" in edges[support].told
    assert "of the skin side on support" in edges[skin].told
    assert min(edges[support].cost_min, edges[skin].cost_min) > 20.0
    assert end[support].cost_min == end[skin].cost_min == edges[bores].cost_min == 0.0
    assert end[bores].cost_min == pytest.approx(2 * 3.0 * 5.0)
    assert "2 to drill true" in end[bores].told


def test_no_pose_costs_less_than_the_chosen_one() -> None:
    """The sum of the chosen pose's terms is the least, to the rounding of a minute."""
    solid, part = _cuff(), _part()
    choice, seen = _chosen(solid, part), survey(solid)
    mine = sum(term.cost_min for term in choice.terms)
    weights = read_pose_weights()

    for pose in seen.poses:
        theirs = pose_cost(part, seen, pose, _made(solid, pose.down), weights=weights, warp_share=0.0)
        assert sum(term.cost_min for term in theirs) >= mine - 1.0
    assert [term.for_it for term in choice.terms] == [term.for_it for term in choice.runner_up_terms]


def test_the_weights_decide() -> None:
    """With bores that cost a day each to drill, the same cuff costs least with its bores upright."""
    solid, part = _cuff(), _part()
    seen, dear = survey(solid), replace(read_pose_weights(), drill_min=stated(1440.0))

    def cost_min(down: Vec3) -> float:
        pose = next(pose for pose in seen.poses if sum(a * d for a, d in zip(pose.down, down, strict=True)) > 0.99)
        return sum(t.cost_min for t in pose_cost(part, seen, pose, _made(solid, down), weights=dear, warp_share=0.0))

    assert cost_min((0.0, 0.0, -1.0)) < cost_min((1.0, 0.0, 0.0))

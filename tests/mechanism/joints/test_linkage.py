"""Linkages: angles of closed loops against the formulas of textbooks."""

from __future__ import annotations

import math

import numpy as np
import pytest

from planner.mechanism import LockedError, MovingJoint
from planner.mechanism.joints.linkage import Linkage, linkage_of
from planner.mechanism.joints.rigid_groups import rigid_groups

GROUND, CRANK, COUPLER, ROCKER = 90.0, 30.0, 80.0, 60.0
DRAWN_DEG = 60.0
Z = (0.0, 0.0, 1.0)


def _turns(one: str, other: str, at: complex, **more: tuple[float, float, float]) -> MovingJoint:
    """Return a turning joint about z at a point of the plane."""
    axis = more.get("axis", Z)
    return MovingJoint(
        name=f"{one}-{other}", parts=(one, other), kind="turns", axis=axis, at_mm=(at.real, at.imag, 2.0)
    )


def rocker_deg(crank_deg: float) -> float:
    """Return the rocker's angle of the open four-bar (Freudenstein 1955, from memory), from the ground's direction.

    K1 cos t4 - K2 cos t2 + K3 = cos(t2 - t4), K1 = d/a, K2 = d/c, K3 = (a² - b² + c² + d²)/(2ac); solved by the half
    angle's tangent.
    """
    a, b, c, d = CRANK, COUPLER, ROCKER, GROUND
    k1, k2, k3 = d / a, d / c, (a * a - b * b + c * c + d * d) / (2 * a * c)
    t2 = math.radians(crank_deg)
    A = math.cos(t2) - k1 - k2 * math.cos(t2) + k3
    B = -2 * math.sin(t2)
    C = k1 - (k2 + 1) * math.cos(t2) + k3
    return math.degrees(2 * math.atan2(-B - math.sqrt(B * B - 4 * A * C), 2 * A))


def coupler_deg(crank_deg: float) -> float:
    """Return the coupler's angle: the way from the crank's pin to the rocker's, as Freudenstein's angles put them."""
    near = CRANK * np.exp(1j * math.radians(crank_deg))
    far = GROUND + ROCKER * np.exp(1j * math.radians(rocker_deg(crank_deg)))
    return math.degrees(np.angle(far - near))


def four_bar(crank_first: str = "base-crank") -> Linkage:
    """Return the four-bar drawn with its crank at 60 degrees."""
    a = CRANK * np.exp(1j * math.radians(DRAWN_DEG))
    b = GROUND + ROCKER * np.exp(1j * math.radians(rocker_deg(DRAWN_DEG)))
    joints = [
        _turns("base", "crank", 0),
        _turns("crank", "coupler", a),
        _turns("coupler", "rocker", b),
        _turns("base", "rocker", GROUND + 0j),
    ]
    return linkage_of(rigid_groups(("base", "crank", "coupler", "rocker"), joints), (crank_first,))


@pytest.mark.parametrize("turned", [-200.0, -60.0, -1.0, 0.0, 13.0, 75.0, 180.0, 359.0])
def test_a_four_bar_follows_freudensteins_equation(turned: float) -> None:
    """Rocker and coupler stand as in the textbook within 0.001 degrees all round."""
    found = four_bar().values_at({"base-crank": turned})
    expected = rocker_deg(DRAWN_DEG + turned) - rocker_deg(DRAWN_DEG)

    assert (found["base-rocker"] - expected + 180) % 360 - 180 == pytest.approx(0.0, abs=1e-3)
    against = coupler_deg(DRAWN_DEG + turned) - coupler_deg(DRAWN_DEG) - turned
    assert (found["crank-coupler"] - against + 180) % 360 - 180 == pytest.approx(0.0, abs=1e-3)


def test_a_rocker_that_drives_locks_where_crank_and_coupler_stretch() -> None:
    """Driven at its rocker the four-bar ends where crank and coupler lie in line: law of cosines with a + b."""
    a, b, c, d = CRANK, COUPLER, ROCKER, GROUND
    most = 180.0 - math.degrees(math.acos((c * c + d * d - (a + b) ** 2) / (2 * c * d)))
    ahead = (most - rocker_deg(DRAWN_DEG) + 180.0) % 360.0 - 180.0
    linkage = four_bar("base-rocker")

    assert linkage.values_at({"base-rocker": ahead * 0.999})["base-rocker"] == pytest.approx(ahead * 0.999)
    with pytest.raises(LockedError):
        linkage.values_at({"base-rocker": ahead * 1.001})


@pytest.mark.parametrize("turned", [-170.0, -30.0, 20.0, 90.0, 180.0, 300.0])
def test_a_slider_crank_goes_as_far_as_its_formula(turned: float) -> None:
    """The piston stands at r cos t + sqrt(l² - r² sin² t), the rod leans by asin(r sin t / l) (textbook, from memory)."""
    r, long, drawn = 20.0, 70.0, math.radians(40.0)

    def out(t: float) -> float:
        return r * math.cos(t) + math.sqrt(long**2 - (r * math.sin(t)) ** 2)

    joints = [
        _turns("frame", "crank", 0),
        _turns("crank", "rod", r * np.exp(1j * drawn)),
        _turns("rod", "piston", out(drawn) + 0j),
        MovingJoint(name="way", parts=("frame", "piston"), kind="slides", axis=(1.0, 0.0, 0.0), at_mm=(9.0, 1.0, 3.0)),
    ]
    linkage = linkage_of(rigid_groups(("frame", "crank", "rod", "piston"), joints), ("frame-crank",))

    found = linkage.values_at({"frame-crank": turned})

    now = drawn + math.radians(turned)
    assert found["way"] == pytest.approx(out(now) - out(drawn), abs=1e-3)
    leans = math.degrees(math.asin(r * math.sin(now) / long) - math.asin(r * math.sin(drawn) / long))
    assert found["rod-piston"] == pytest.approx(leans, abs=1e-3)


def test_an_open_chain_turns_joint_by_joint() -> None:
    """Two joints in a row: the second body's frame is both turns, one after the other."""
    joints = [_turns("palm", "near", 0), _turns("near", "far", 40 + 0j)]
    linkage = linkage_of(rigid_groups(("palm", "near", "far"), joints))
    moved = linkage.moves_at({"palm-near": 90.0, "near-far": 90.0})
    tip = moved[next(n for n, group in enumerate(linkage.groups) if "far" in group)].point((60.0, 0.0, 0.0))

    assert tip == pytest.approx((-20.0, 40.0, 0.0), abs=1e-9)


def test_a_joint_that_is_named_the_other_way_round_moves_its_first_copy_back() -> None:
    """Where the tree reaches a joint from its moving copy, the first copy turns against its sense; the value stays."""
    joints = [_turns("base", "arm", 0), _turns("tool", "arm", 10 + 0j), _turns("tool", "tip", 20 + 0j)]
    linkage = linkage_of(rigid_groups(("base", "arm", "tool", "tip"), joints))

    assert linkage.values_at({"tool-arm": 25.0})["tool-arm"] == pytest.approx(25.0)
    moved = linkage.moves_at({"tool-arm": 25.0})
    arm, tool = (next(n for n, group in enumerate(linkage.groups) if name in group) for name in ("arm", "tool"))
    between = moved[tool].inverse().after(moved[arm])
    assert between.direction((1.0, 0.0, 0.0)) == pytest.approx(
        (math.cos(math.radians(25)), math.sin(math.radians(25)), 0.0)
    )


def test_a_loop_beside_the_one_that_moves_stays_where_it_is() -> None:
    """Two four-bars on one base, each with a freedom of its own: one goes round in steps, the other by nothing at all.

    With axes read off meshes, rounding had swung it by degrees, into what it touches.
    """
    a = CRANK * np.exp(1j * math.radians(DRAWN_DEG))
    b = GROUND + ROCKER * np.exp(1j * math.radians(rocker_deg(DRAWN_DEG)))
    joints = []
    for side, off in (("", 0j), ("2", 200j)):
        joints += [
            _turns("base", f"crank{side}", off),
            _turns(f"crank{side}", f"coupler{side}", off + a),
            _turns(f"coupler{side}", f"rocker{side}", off + b),
            _turns("base", f"rocker{side}", off + GROUND),
        ]
    names = ("base", *(f"{bar}{side}" for side in ("", "2") for bar in ("crank", "coupler", "rocker")))
    linkage = linkage_of(rigid_groups(names, joints), ("base-crank", "base-crank2"))
    q = linkage.solved({})
    for deg in np.linspace(0.0, 90.0, 46):
        ahead = linkage.solved({"base-crank": float(deg)}, q) - q
        q = linkage.solved({"base-crank": float(deg)}, q, 400.0 * ahead)
    values = linkage.values_of(q)

    assert values["base-rocker"] == pytest.approx(rocker_deg(DRAWN_DEG + 90.0) - rocker_deg(DRAWN_DEG), abs=1e-6)
    assert {value for name, value in values.items() if "2" in name} == {0.0}

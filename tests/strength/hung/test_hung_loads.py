"""A weight at a tip comes with its moment to all that carries it, and to the straps: the lever, by hand."""

from __future__ import annotations

import numpy as np
import pytest

from planner.strength.beam.beam_pass import weakest
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.criterion import Strengths
from planner.strength.loads.part_load import LoadCase, PartLoad
from tests.conftest import MakeJob
from tests.strength.hung.chain import TIP_MM, USE, hung, solids

SOLID = BeamStuff(
    strengths=Strengths(along_mpa=50.0, across_mpa=25.0, shear_mpa=20.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=99.0,
    level_mm=99.0,
    infill_share=1.0,
)


def _up_n(case: LoadCase) -> dict[float, float]:
    """Return what each answer of a case gives upward, by where along the device it does."""
    return {round(one.at_mm[0]) + 0.0: one.force_n[2] for one in case.answers}


def _moment(loads: tuple[PartLoad, ...], about: tuple[float, float, float]) -> np.ndarray:
    """Return the moment of loads about a point, in N mm."""
    each = [np.cross(np.subtract(one.at_mm, about), one.force_n) + one.couple_n_mm for one in loads]
    return np.asarray(np.sum(each, axis=0))


def test_an_arm_takes_the_weight_with_its_lever(make_job: MakeJob) -> None:
    """10 N, 230 mm before the first of two screws 30 mm apart: 10 (230 + 30) / 30 = 86.7 N up, and 76.7 N down."""
    (case,) = hung(make_job).on("arm")

    assert (case.asks, case.said) == ("", "10 N (load_n) hung at the tip of finger")
    assert _moment(case.pushes, (100.0, 0.0, 10.0)) == pytest.approx([0.0, 1000.0, 0.0], abs=1e-3)
    assert _up_n(case) == pytest.approx({-30.0: 260 / 3, -60.0: -230 / 3}, abs=0.01)


def test_two_straps_hold_as_the_lever_has_it(make_job: MakeJob) -> None:
    """Straps at -10 and -90 mm, the weight at 200: 10 (210 + 80) / 80 = 36.25 N at the near one, -26.25 at the far one.

    Where the far one alone holds, the plate presses on its edge at 0: -10 · 200 / 90 = -22.2 N there. That is asked.
    """
    together, levered = hung(make_job).on("plate")

    assert _up_n(together) == pytest.approx({-10.0: 36.25, -90.0: -26.25}, abs=0.01)
    assert (together.asks, "all straps holding" in together.said) == ("", True)
    assert _up_n(levered) == pytest.approx({0.0: 290 / 9, -90.0: -200 / 9}, abs=0.01)
    assert "levered over its near edge" in levered.said
    assert levered.asks.startswith("How is plate held while 10 N hang at the tip")


def test_the_net_section_at_the_screw_bends_as_by_hand(make_job: MakeJob) -> None:
    """2300 N mm in 30 by 8 mm less a bore of 4.4: 6 · 2300 / (25.6 · 8²) = 8.4 MPa along, 16.8 % of 50 MPa, 5 %."""
    found = weakest(solids()["arm"], tuple(hung(make_job).on("arm")), SOLID)

    assert found is not None
    assert found.stress_mpa == pytest.approx(6 * 2300 / (25.6 * 8**2), rel=0.05)
    assert found.cut_at_mm[0] == pytest.approx(-30.0, abs=2.5)


def test_what_lies_beside_the_way_to_the_body_takes_nothing(make_job: MakeJob) -> None:
    """The tab hangs on the arm, and nothing holds its other screw: no load can go that way."""
    assert list(hung(make_job).on("tab")) == []


def test_where_nothing_is_worn_each_part_is_held_at_its_worst_and_that_is_asked(make_job: MakeJob) -> None:
    """The plate by its far end; the tab might be what the device is held by; the arm by whatever lies beyond it."""
    found = hung(make_job, worn="")
    (plate,), (arm,), (tab,) = (tuple(found.on(name)) for name in ("plate", "arm", "tab"))

    assert all(one.asks.startswith("What holds") for one in (plate, arm, tab))
    assert min(_up_n(plate)) == pytest.approx(-100.0, abs=1.0)


def test_a_weight_hangs_any_way_that_the_device_is_held(make_job: MakeJob) -> None:
    """Unless a way is stated: in steps of 45 degrees round the arm, and along it; the tip's own part, too."""
    on_finger = list(hung(make_job, way="").on("finger"))
    assert all(case.asks.startswith("What hangs at the tip of finger at most") for case in on_finger)
    assert not any(case.asks for case in hung(make_job, way="", use=USE + "hang_n = 3.0\n").on("finger"))
    pushed = np.array([case.pushes[0].force_n for case in on_finger])
    arm = np.subtract(TIP_MM, (100.0, 0.0, 18.0)) / 100.0

    assert np.linalg.norm(pushed, axis=1) == pytest.approx([10.0] * 10)
    assert sorted(np.round(np.abs(pushed @ arm), 6)) == [0.0] * 8 + [10.0] * 2
    assert pushed.sum(axis=0) == pytest.approx([0.0] * 3, abs=1e-6)


@pytest.mark.parametrize(
    ("use", "said"),
    [
        ("[use]\nload_n = 10.0\nhang_n = 3.0\n", "3 N (hang_n) hung"),
        ("[use]\ngrip_n = 4.0\n", "4 N (as much as grip_n) hung"),
    ],
)
def test_a_stated_weight_counts_before_the_load_and_the_grip(make_job: MakeJob, use: str, said: str) -> None:
    """It says what states it."""
    (case,) = hung(make_job, use=use).on("arm")
    assert case.said.startswith(said)

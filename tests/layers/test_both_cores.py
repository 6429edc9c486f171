"""Both cores: the answer is that of one, and a second process that fails costs only time."""

from __future__ import annotations

import pytest

from planner.job import Settings
from planner.layers.both_cores import SERVE, laid_and_timed
from planner.layers.stretch import Machine, Stretch
from planner.mesh import posed
from tests.layers.conftest import DOWN
from tests.shapes import ball


def _alone_and_shared(patch: pytest.MonkeyPatch, standard: Settings, serve: str) -> tuple[Stretch, Stretch]:
    """Time a ball in one process, and with a second one that does what ``serve`` says."""
    machine = Machine(
        speed_mm_s=180, acceleration_mm_s2=1500, corner_deviation_mm=0.02, corner_speed_mm_s=0, melt_rate_mm3_s=10
    )
    solid = posed(ball(20.0, 64), DOWN)
    alone = laid_and_timed(solid, standard, machine, cores_n=1)[1]
    patch.setattr("planner.layers.both_cores.CORNERS_LEAST", 0)
    patch.setattr("planner.layers.both_cores.SERVE", serve)
    return alone, laid_and_timed(solid, standard, machine, cores_n=2)[1]


def test_two_cores_give_the_answer_of_one(monkeypatch: pytest.MonkeyPatch, standard: Settings) -> None:
    """The upper layers from a second process equal those of this one, layer by layer."""
    alone, shared = _alone_and_shared(monkeypatch, standard, SERVE)

    assert shared.layer_s == alone.layer_s
    assert shared.length_mm == pytest.approx(alone.length_mm)
    assert shared.peak_flow_mm3_s == alone.peak_flow_mm3_s


def test_a_second_process_that_fails_costs_only_time(monkeypatch: pytest.MonkeyPatch, standard: Settings) -> None:
    """The first one then does the work itself."""
    alone, shared = _alone_and_shared(monkeypatch, standard, "raise SystemExit(3)")

    assert shared.layer_s == alone.layer_s

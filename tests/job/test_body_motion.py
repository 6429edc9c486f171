"""Ranges of motion: the shipped numbers against each other and against a second publication."""

from __future__ import annotations

import pytest

from planner.job.body_motion import read_motions

AAOS_1965_DEG = {"wrist": (80.0, 70.0), "elbow": (150.0, 0.0), "shoulder": (180.0, 60.0)}
"""American Academy of Orthopaedic Surgeons 1965, as later tables repeat it."""


@pytest.mark.parametrize("name", AAOS_1965_DEG)
def test_means_agree_with_another_publication(name: str) -> None:
    """Within 13 degrees, and what that one gives is not more than hardly anybody exceeds, within its rounding to tens."""
    motion = read_motions()[name]

    for mean, other, most in zip(motion.mean_deg, AAOS_1965_DEG[name], motion.most_deg, strict=True):
        assert mean == pytest.approx(other, abs=13.0)
        assert other <= most + 5.0


def test_daily_work_uses_less_than_there_is() -> None:
    """For every joint and movement."""
    for motion in read_motions().values():
        assert all(daily < mean for daily, mean in zip(motion.daily_deg, motion.mean_deg, strict=True))

"""Benches of the survey: how its time grows with the triangles of curved meshes, measured in one run."""

from __future__ import annotations

import math
import time
from collections.abc import Callable

from planner.mesh import Solid
from planner.survey.measure import measured_anew
from tests.survey.drawn.curved_meshes import scanned_limb, scanned_shell, torus, wavy_shell

SIZES = (60_000, 250_000)
"""Triangles; below the first, samples of walls decide, which do not grow."""


def growth() -> list[dict[str, object]]:
    """Time whole surveys of curved meshes; the peer is growth in proportion, ``size`` tells the exponent."""
    return [_grown(mesh) for mesh in (torus, scanned_limb, wavy_shell, scanned_shell)]


def _grown(mesh: Callable[[int], Solid]) -> dict[str, object]:
    """Return how one mesh's survey grows, in seconds of the processor."""
    measured_anew(mesh(5_000))
    took, triangles = [], []
    for triangles_n in SIZES:
        solid = mesh(triangles_n)
        begun = time.process_time()
        measured_anew(solid)
        took.append(time.process_time() - begun)
        triangles.append(solid.triangles_n)
    times = triangles[1] / triangles[0]
    exponent = math.log(took[1] / took[0]) / math.log(times)
    return {
        "name": f"survey grows: {mesh.__name__}",
        "ours_s": took[1],
        "peer": "growth in proportion",
        "peer_s": took[0] * times,
        "ratio": took[0] * times / took[1],
        "size": f"{triangles[0]} to {triangles[1]} triangles, exponent {exponent:.2f}",
    }


SURVEY_BENCHES = {"survey-growth": growth}

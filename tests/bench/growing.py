"""Benches of growth: what many corners, many triangles and one second of effort cost, each as a ratio in one run."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from functools import partial

import numpy as np
from numpy.typing import NDArray

from planner.mesh import Solid
from planner.mesh.formats.polygons import triangles_of
from planner.packing.search.effort import Effort
from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import facets_of
from planner.survey.openings.channels import channels_of
from tests.mesh.formats.many_corners import band, round_of, spikes
from tests.packing.thrown import Case
from tests.survey.drawn.curved_meshes import scanned_limb, torus, wavy_shell

CORNERS_N = (10_000, 80_000)
TRIANGLES_N = (15_000, 120_000)


def _row(name: str, took_s: tuple[float, float], times: float, what: str) -> dict[str, object]:
    """Return how one thing grows; the peer is growth in proportion."""
    exponent = math.log(took_s[1] / took_s[0]) / math.log(times)
    return {
        "name": name,
        "ours_s": took_s[1],
        "peer": "growth in proportion",
        "peer_s": took_s[0] * times,
        "ratio": took_s[0] * times / took_s[1],
        "size": f"{what}, exponent {exponent:.2f}",
    }


def _spent_s(work: Callable[[], object]) -> float:
    """Return processor seconds of one run."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def polygons() -> list[dict[str, object]]:
    """Cut polygons of many corners to triangles: rounds, toothed rounds, spikes, and two wound bands."""
    shapes: dict[str, Callable[[int], NDArray[np.float64]]] = {
        "round": lambda n: round_of(n, 0.0),
        "toothed round": lambda n: round_of(n, 0.5),
        "spikes": spikes,
        "band wound 8 times": lambda n: band(n, 8),
        "band wound 60 times": lambda n: band(n, 60),
    }
    few, many = CORNERS_N
    found = []
    for name, shape in shapes.items():
        took = [_spent_s(partial(triangles_of, shape(n), [np.arange(n)])) for n in CORNERS_N]
        found.append(_row(f"polygon: {name}", (took[0], took[1]), many / few, f"{few} to {many} corners"))
    return found


def bores() -> list[dict[str, object]]:
    """Look for bores and channels on curved meshes that have none."""

    def looked(solid: Solid) -> None:
        facets = facets_of(solid)
        bores_of(solid, facets)
        channels_of(solid, facets)

    few, many = TRIANGLES_N
    found = []
    for mesh in (torus, wavy_shell, scanned_limb):
        solids = [mesh(n) for n in TRIANGLES_N]
        took = [_spent_s(partial(looked, solid)) for solid in solids]
        found.append(_row(f"bores: {mesh.__name__}", (took[0], took[1]), many / few, f"{few} to {many} triangles"))
    return found


def effort() -> dict[str, object]:
    """Search for a second of effort, which is counted in moves, beside a tenth of one."""
    case = Case(104, 24)
    plates = case.search.first()
    case.search.better(plates, Effort(0.1))  # compiled, or read from where that is kept
    tenth, whole = (_spent_s(partial(case.search.better, plates, Effort(told))) for told in (0.1, 1.0))
    return _row("packing by effort", (tenth, whole), 10.0, f"told as 1 s, took {whole:.2f} s of the processor")


GROWING_BENCHES: dict[str, Callable[[], dict[str, object] | list[dict[str, object]]]] = {
    "polygons": polygons,
    "bores": bores,
    "effort": effort,
}

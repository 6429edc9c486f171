"""A pool over parts: many heavy parts are estimated on all cores, few or light ones here."""

from __future__ import annotations

import os
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import joblib
import numpy as np

from planner.job import Material, Printer, Settings
from planner.layers.estimate import estimate_part, is_kept
from planner.layers.layer_records import PartEstimate
from planner.layers.lines.support import Opening
from planner.mesh import Solid

CORNERS_LEAST = 600_000
"""Parts with fewer section corners in all are done before the pool has started (measured: 13 us a corner, 2.5 s)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PosedPart:
    """One copy of a part to estimate: at size, in its pose, standing on z = 0; see :func:`estimate_part`."""

    solid: Solid
    settings: Settings
    printer: Printer
    material: Material
    openings: tuple[Opening, ...] = ()

    @property
    def corners_n(self) -> int:
        """About how many corners all its sections have together: one for every triangle that a layer cuts."""
        heights_mm = self.solid.corners_mm[:, :, 2]
        rise_mm = heights_mm.max(axis=1) - heights_mm.min(axis=1)
        return int(np.sum(rise_mm / self.settings.layer_height_mm.value))

    @property
    def kept(self) -> bool:
        """True where its estimate is in the cache."""
        return is_kept(self.solid, self.settings, self.printer, self.material, self.openings)

    def estimated(self) -> PartEstimate:
        """Estimate it."""
        return estimate_part(
            self.solid,
            settings=self.settings,
            printer=self.printer,
            material=self.material,
            openings=self.openings,
        )


def estimate_parts(
    parts: Sequence[PosedPart], done: Callable[[int], None] = lambda _: None, cores_n: int | None = None
) -> list[PartEstimate]:
    """Estimate parts in their order; the answers are the same on one core and on many.

    ``done`` is called with the number of parts finished before each; ``cores_n`` is all of this process's by default.
    """
    cores_n = cores_n or _cores_n()
    heavy = [part for part in parts if not part.kept] if cores_n > 1 and len(parts) > 1 else []
    if len(heavy) < 2 or sum(part.corners_n for part in heavy) < CORNERS_LEAST:
        found = []
        for index, part in enumerate(parts):
            done(index)
            found.append(part.estimated())
        return found
    jobs = (joblib.delayed(PosedPart.estimated)(part) for part in parts)
    pool = joblib.Parallel(n_jobs=min(cores_n, len(heavy)), batch_size=1, return_as="generator")
    found = []
    for estimate in pool(jobs):
        done(len(found))
        found.append(estimate)
    return found


def _cores_n() -> int:
    """Return how many cores this process may use, where the system tells; else how many there are."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1

"""An estimate of a solid as it stands, with some settings changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.job import Material, Printer, Settings
from planner.layers import Opening, PartEstimate, estimate_part
from planner.mesh import Solid, posed

DOWN = (0.0, 0.0, -1.0)
Estimated = Callable[..., PartEstimate]


@pytest.fixture(name="estimated")
def _estimated(printer: Printer, petg: Material, standard: Settings) -> Estimated:
    def estimated(solid: Solid, openings: tuple[Opening, ...] = (), **changes: object) -> PartEstimate:
        settings = replace(standard, **changes)  # type: ignore[arg-type]
        return estimate_part(posed(solid, DOWN), settings=settings, printer=printer, material=petg, openings=openings)

    return estimated

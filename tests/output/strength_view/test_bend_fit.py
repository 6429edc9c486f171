"""A bend in a few numbers: where the part stands on the bed, mirrored and turned as it is."""

from __future__ import annotations

import numpy as np
import pytest

from planner.output.strength_view.bend_fit import bend_fit, exaggeration
from planner.plan import Plan
from planner.strength import Bend


def test_a_mirrored_part_bends_the_mirrored_way(plan: Plan) -> None:
    """A cantilever's bend, known at every corner of the mesh as drawn: the fit moves the part on the bed to match."""
    part = next(part for part in plan.parts if part.mirrored)
    drawn = part.solid.vertices_mm
    far = (drawn - drawn.min(axis=0)) / np.ptp(drawn, axis=0).max()
    shift = np.column_stack([0.2 * far[:, 1] ** 3, np.zeros(len(far)), 0.5 * far[:, 0] ** 2 * (3.0 - far[:, 0])])
    fit = bend_fit(part, Bend(points_mm=drawn, shift_mm=shift, low_share=1.0, high_share=1.0))
    bent = part.on_bed(drawn + shift / (np.array(part.scale_percent) / 100.0))

    assert fit.at(part.on_bed(drawn)) == pytest.approx(bent - part.on_bed(drawn), abs=0.01)
    assert fit.off_share < 0.01
    assert max(sum(powers) for powers in fit.powers) == 3


def test_a_bend_is_drawn_so_that_it_is_seen() -> None:
    """A tenth of a millimetre on 100 mm is drawn 50 times too large; what is large is drawn as it is."""
    assert (exaggeration(100.0, 0.1), exaggeration(100.0, 20.0)) == (50.0, 1.0)

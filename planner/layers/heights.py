"""Layer heights: the first layer has its own; a layer exists where its mid-height lies inside the part."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def layer_tops_mm(height_mm: float, first_mm: float, layer_mm: float) -> Floats:
    """Return the top of every layer of a part that stands on z = 0, (n,) in mm; at least one layer.

    >>> [round(float(z), 2) for z in layer_tops_mm(0.75, 0.24, 0.2)]
    [0.24, 0.44, 0.64, 0.84]
    """
    if height_mm <= first_mm / 2:
        return np.array([first_mm])
    above = max(int(np.ceil((height_mm - first_mm) / layer_mm - 0.5 - 1e-9)), 0)
    tops: Floats = (first_mm + layer_mm * np.arange(above + 1)).astype(np.float64)
    return tops


def layer_middles_mm(tops_mm: Floats) -> Floats:
    """Return the mid-height of every layer, where it is cut."""
    middles: Floats = (tops_mm + np.concatenate([[0.0], tops_mm[:-1]])) / 2.0
    return middles

"""Polygons of very many corners in the plane z = 0, each (n, 3) in mm."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def _ring(r: Floats) -> Floats:
    """Return corners at radii that go once round."""
    angle = np.arange(len(r)) * 2 * np.pi / len(r)
    return np.column_stack([r * np.cos(angle), r * np.sin(angle), np.zeros(len(r))])


def round_of(n: int, teeth_mm: float) -> Floats:
    """Return a round of 10 mm, every second corner farther out by its teeth."""
    return _ring(np.asarray(10.0 + teeth_mm * (np.arange(n) % 2), dtype=np.float64))


def spikes(n: int) -> Floats:
    """Return spikes of random length, whose sides' boxes all overlap."""
    return _ring(10.0 + np.random.default_rng(1).uniform(0.0, 5.0, n))


def band(n: int, turns: int) -> Floats:
    """Return a spiral band that is wound so many times."""
    turn = np.linspace(0.0, 1.0, n // 2)
    ring, inner = 1.0 + 10.0 * turn, np.exp(2j * np.pi * turns * turn)
    both = np.concatenate([(ring + 3.0 / turns) * inner, (ring * inner)[::-1]])
    return np.column_stack([both.real, both.imag, np.zeros(len(both))])

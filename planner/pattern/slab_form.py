"""A form with a waist: hulls of short slabs along the limb, each with its foot, made one."""

from __future__ import annotations

from collections.abc import Callable

import manifold3d
import numpy as np

from planner.pattern.patch import Floats, Patch

SLABS_N = 40
"""Slabs along a form; each overlaps the next by half, so that all grow together."""

Footed = Callable[[Floats, float], manifold3d.Manifold | None]
"""Makes the form of a slab's points over a base at a height below it; None where its hull fills too much."""


def slab_form(patch: Patch, axis: Floats, base_mm: float, footed: Footed) -> manifold3d.Manifold | None:
    """Return the union of a patch's slabs across ``axis``; None where a slab is hollow itself.

    Between a slab's ends its hull goes straight: on a form that waists with radius ρ, slabs of length l fill it by
    l² / (8 ρ) at most (sagitta of a chord).
    """
    height = patch.vertices_mm @ axis
    low, step = float(height.min()), float(np.ptp(height)) / SLABS_N
    edges = np.unique(
        np.sort(np.concatenate([patch.faces[:, [0, 1]], patch.faces[:, [1, 2]], patch.faces[:, [2, 0]]]), axis=1),
        axis=0,
    )
    a, b = patch.vertices_mm[edges[:, 0]], patch.vertices_mm[edges[:, 1]]
    za, zb = height[edges[:, 0]], height[edges[:, 1]]
    cuts = []
    for k in range(1, SLABS_N):
        level = low + k * step
        across = (za - level) * (zb - level) < 0.0
        share = ((level - za[across]) / (zb[across] - za[across]))[:, None]
        cuts.append(a[across] + share * (b[across] - a[across]))
    ends = np.zeros((0, 3))
    levels = [ends, *cuts, ends]
    forms = []
    for k in range(SLABS_N - 1):
        inside = (height >= low + k * step - 1e-9) & (height <= low + (k + 2) * step + 1e-9)
        form = footed(np.concatenate([patch.vertices_mm[inside], *levels[k : k + 3]]), base_mm)
        if form is None:
            return None
        forms.append(form)
    return manifold3d.Manifold.batch_boolean(forms, manifold3d.OpType.Add)

"""Loads that hold each other in balance, or a refusal."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press

BALANCE_SHARE = 0.01
"""Loads may be out of balance by this share of the greatest; what is left is taken up at three nodes."""


def refuse_unbalanced(loads: Sequence[Press]) -> None:
    """Refuse loads whose forces or moments do not add up to nothing, by :class:`UnsolvedError`."""
    force, at = np.array([one.force_n for one in loads]), np.array([one.at_mm for one in loads])
    moment = np.cross(at - at.mean(axis=0), force) + np.array([one.couple_n_mm for one in loads])
    size = np.linalg.norm(force, axis=1).max()
    reach = np.linalg.norm(at - at.mean(axis=0), axis=1).max()
    most = max(size * reach, np.linalg.norm(moment, axis=1).max())
    if np.linalg.norm(force.sum(axis=0)) > BALANCE_SHARE * max(size, 1e-9) or np.linalg.norm(
        moment.sum(axis=0)
    ) > BALANCE_SHARE * max(most, 1e-9):
        raise UnsolvedError("the loads are out of balance")

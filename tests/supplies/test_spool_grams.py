"""Grams left on spools: none counted twice, and enough exactly where some dealing of the spools meets every colour."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import linprog

from planner.finding import Verdict
from planner.job import read_job
from planner.supplies import (
    grams_left,
    spool_findings,
)

COLOURS = ("green", "black", "any")


def _can_be_met(needs: dict[str, float], spools: list[tuple[str, float]]) -> bool:
    """Return whether some dealing of grams meets every need (a transport problem, scipy.optimize.linprog)."""
    pairs = [(c, s) for c in needs for s, (hue, _) in enumerate(spools) if c == "any" or hue in (c, "any")]
    if not pairs:
        return not any(needs.values())
    asked = [[-float(c == colour) for c, _ in pairs] for colour in needs]
    given = [[float(s == spool) for _, s in pairs] for spool in range(len(spools))]
    most = [-need for need in needs.values()] + [grams for _, grams in spools]
    return bool(linprog(np.zeros(len(pairs)), A_ub=asked + given, b_ub=most).status == 0)


@pytest.mark.parametrize("seed", range(60))
def test_enough_is_told_exactly_where_it_is_enough(seed: int) -> None:
    """Against a transport problem over random needs and spools (scipy's linear programs)."""
    rng = np.random.default_rng(seed)
    needs = {c: float(rng.integers(1, 200)) for c in rng.permutation(COLOURS)[: rng.integers(1, 4)]}
    spools = [(str(rng.choice(COLOURS)), float(rng.integers(1, 250))) for _ in range(rng.integers(1, 5))]
    left = grams_left(needs, spools)

    assert all(need <= left[colour] for colour, need in needs.items()) == _can_be_met(needs, spools)


def test_a_short_spool_holds(heron: Path) -> None:
    """600 g with a reserve of 15 % are more than 620 g: a hold that says how much is missing."""
    job = read_job(heron)
    short = spool_findings(job, job.materials[0], {"green": 600.0})[0]
    enough = spool_findings(job, job.materials[0], {"green": 180.0})[0]

    assert (short.verdict, enough.verdict) == (Verdict.HOLD, Verdict.GO)
    assert "70 g more" in short.remedy

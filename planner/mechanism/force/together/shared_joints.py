"""Several cords that one hand draws, over joints of which they share some: the least and the most that all ask for.

At joint j the cords' moments add: with q_ij the pull that cord i alone needs there, the joint turns where
sum_i T_i / q_ij >= 1 (virtual work; textbook, from memory). A joint that only one cord crosses asks that cord for all
of its q; one that several cross may be turned by any mix of them, which their knots decide.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import permutations

import numpy as np
from scipy.optimize import linprog

Needs = Mapping[str, float]
"""What each cord alone needs at one joint, in newtons, by the cord's name; infinite where it turns it at no pull."""
LEAST_N = 1e-9
CORDS_N = 6
"""Of more cords in one bunch it is not asked which is tied slacker: each then takes all that it may be asked for."""


def most_n(joints: Sequence[Needs]) -> float:
    """Return what all cords take at most where none pulls more than the others leave to it: however they are tied.

    Of one cord after the other the least is taken that the tauter ones can make up for.

    >>> most_n([{"a": 12.0}, {"a": 60.0, "b": 70.0}, {"b": 40.0}])  # 12 + 70 * (1 - 12 / 60)
    68.0
    >>> most_n([{"a": 10.0, "b": 30.0}])
    30.0
    """
    asking, names = _asking(joints), _names(joints)
    if len(names) > CORDS_N:
        return sum(max((needs[name] for needs in asking if name in needs), default=0.0) for name in names)
    return max((_tied(order, asking) for order in permutations(names)), default=0.0)


def least_n(joints: Sequence[Needs]) -> float:
    """Return the least that all cords take together, tied as well as can be: a linear programme.

    >>> least_n([{"a": 10.0, "b": 100.0}, {"a": 100.0, "b": 10.0}])  # each is good at one
    18.18...
    """
    asking, names = _asking(joints), _names(joints)
    if not asking:
        return 0.0
    rows = np.array([[1.0 / needs[name] if name in needs else 0.0 for name in names] for needs in asking])
    if not rows.any(axis=1).all():
        return math.inf
    found = linprog(np.ones(len(names)), A_ub=-rows, b_ub=-np.ones(len(rows)))
    return float(found.fun) if found.success else math.inf


def even_n(joints: Sequence[Needs]) -> float:
    """Return the pull of each cord where all pull alike, as over a pulley.

    >>> even_n([{"a": 60.0, "b": 60.0}, {"c": 60.0}])
    60.0
    """
    helps = [sum(1.0 / need for need in needs.values()) for needs in _asking(joints)]
    return max((1.0 / help_ if help_ > 0.0 else math.inf for help_ in helps), default=0.0)


def _asking(joints: Sequence[Needs]) -> list[Needs]:
    """Return the joints that ask for a pull."""
    return [needs for needs in joints if min(needs.values()) > LEAST_N]


def _names(joints: Sequence[Needs]) -> list[str]:
    """Return the names of all cords."""
    return list(dict.fromkeys(name for needs in joints for name in needs))


def _tied(order: Sequence[str], joints: Sequence[Needs]) -> float:
    """Return the pull of all where the first is tied slackest: each takes what no tauter one can."""
    taken: dict[str, float] = {}
    for n, name in enumerate(order):
        tauter, asks = order[n + 1 :], 0.0
        for needs in joints:
            if name in needs and not any(other in needs and needs[other] < math.inf for other in tauter):
                done = sum(taken[other] / needs[other] for other in order[:n] if other in needs)
                asks = max(asks, needs[name] * (1.0 - done) if done < 1.0 else 0.0)
        taken[name] = asks
    return sum(taken.values())

"""Branching: a second engine asked whether a relaxation has no answer, where its strength is numbers, not logic.

HiGHS (Huangfu and Hall 2018) solves the model's linear form by branch and cut on one thread; it stops after so many
nodes, never by the clock, so that the same model gets the same word.
"""

from __future__ import annotations

from typing import Any

import numpy as np

NODES_N = 3_000
"""Nodes after which nothing is said; a node of forty plates takes a few milliseconds."""
INFEASIBLE = 2
"""What scipy's milp says of a model without an answer."""


def none_by_branching(model: Any, nodes_n: int = NODES_N) -> bool:
    """Return whether a model of literals and linear sums has no answer; False also where it is not known."""
    from scipy.optimize import Bounds, LinearConstraint, milp  # noqa: PLC0415  loaded by those who need it
    from scipy.sparse import csr_matrix  # noqa: PLC0415

    rows = _rows(model)
    at = [(row, column, factor) for row, (sums, _, _) in enumerate(rows) for column, factor in sums.items()]
    number, columns, factors = (np.array(each) for each in zip(*at, strict=True))
    low, high = (np.array(each, dtype=float) for each in zip(*_spans(model), strict=True))
    found = milp(
        np.zeros(len(low)),
        constraints=LinearConstraint(
            csr_matrix((factors, (number, columns)), shape=(len(rows), len(low))),
            [least for _, least, _ in rows],
            [most for _, _, most in rows],
        ),
        bounds=Bounds(low, high),
        integrality=np.where((low >= 0) & (high <= 1), 1, 0),
        options={"node_limit": nodes_n},
    )
    return bool(found.status == INFEASIBLE)


Row = tuple[dict[int, float], float, float]
"""Factors by the number of the variable, and the least and the most of the sum."""


def _rows(model: Any) -> list[Row]:
    """Return the constraints on literals as linear rows; one that depends on literals is loosened where they fail.

    Minutes are left out: with them the rows would hold no more than the sums of literals do, and be weak.
    """
    spans = _spans(model)
    rows: list[Row] = []
    wide = {k for k, (low, high) in enumerate(spans) if low < 0 or high > 1}
    for constraint in model.proto.constraints:
        for sums, least, most in _plain(constraint):
            if wide.intersection(sums):
                continue
            only = list(constraint.enforcement_literal)
            reach = [sorted((factor * spans[k][0], factor * spans[k][1])) for k, factor in sums.items()]
            low, high = sum(each[0] for each in reach), sum(each[1] for each in reach)
            if least > low:
                rows.append(_loosened(sums, least, np.inf, only, low - least))
            if most < high:
                rows.append(_loosened(sums, -np.inf, most, only, high - most))
    return rows


def _spans(model: Any) -> list[tuple[int, int]]:
    """Return the least and the most of every variable."""
    return [(min(variable.domain), max(variable.domain)) for variable in model.proto.variables]


def _plain(constraint: Any) -> list[Row]:
    """Return a constraint without its conditions."""
    if constraint.has_linear():
        sums: dict[int, float] = {}
        for variable, factor in zip(constraint.linear.vars, constraint.linear.coeffs, strict=True):
            sums[variable] = sums.get(variable, 0.0) + factor
        return [(sums, float(min(constraint.linear.domain)), float(max(constraint.linear.domain)))]
    if constraint.has_bool_and():
        return [_counted([literal], 1, 1) for literal in constraint.bool_and.literals]
    if constraint.has_bool_or():
        return [_counted(constraint.bool_or.literals, 1, np.inf)]
    if constraint.has_at_most_one():
        return [_counted(constraint.at_most_one.literals, -np.inf, 1)]
    if constraint.has_exactly_one():
        return [_counted(constraint.exactly_one.literals, 1, 1)]
    raise NotImplementedError(f"no linear form of {constraint}")  # never shown: spreads hold no other kind


def _counted(literals: Any, least: float, most: float) -> Row:
    """Return how many literals hold; a negated one counts down from one."""
    sums: dict[int, float] = {}
    for literal in literals:
        variable, sign = (literal, 1.0) if literal >= 0 else (-literal - 1, -1.0)
        least, most = (least, most) if sign > 0 else (least - 1, most - 1)
        sums[variable] = sums.get(variable, 0.0) + sign
    return sums, least, most


def _loosened(sums: dict[int, float], least: float, most: float, only: list[int], by: float) -> Row:
    """Return a row that asks for nothing where one of the conditions does not hold."""
    found = dict(sums)
    for literal in only:
        variable, sign = (literal, 1.0) if literal >= 0 else (-literal - 1, -1.0)
        # the sum less `by` for every condition that fails: by (1 - x), or by x where the condition is negated
        found[variable] = found.get(variable, 0.0) + by * sign
        least, most = (edge + by if sign > 0 else edge for edge in (least, most))
    return found, least, most

"""The critical path against networkx on random graphs of work."""

from __future__ import annotations

import networkx as nx
import numpy as np
import pytest

from planner.schedule import Step, leeways


@pytest.mark.parametrize("seed", range(10))
def test_the_critical_path_is_that_of_networkx(seed: int) -> None:
    """Longest path of the same graph (networkx.dag_longest_path_length): equal length, and slack 0 along it."""
    rng = np.random.default_rng(seed)
    steps: list[Step] = []
    for k in range(12):
        needs = tuple(step.name for step in steps if rng.random() < 0.3)
        steps.append(
            Step(name=f"s{k}", takes_min=int(rng.integers(5, 90)), after=needs, wait_min=int(rng.integers(0, 2)) * 60)
        )
    graph = nx.DiGraph()
    known = {step.name: step for step in steps}
    for step in steps:
        graph.add_edge(step.name, "end", weight=step.takes_min)
        for name in step.after:
            graph.add_edge(name, step.name, weight=known[name].takes_min + step.wait_min)
    length, path = nx.dag_longest_path_length(graph), nx.dag_longest_path(graph)
    found = leeways(steps)

    assert max(found[step.name].earliest_min + step.takes_min for step in steps) == length
    assert all(found[name].slack_min == 0 for name in path if name != "end")
    assert all(each.slack_min >= 0 for each in found.values())

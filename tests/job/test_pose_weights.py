"""The weights of a pose's cost as they are shipped."""

from __future__ import annotations

from planner.job import read_pose_weights


def test_every_weight_says_what_it_rests_on() -> None:
    """No weight is measured, so none may pretend to be; chances stay below certainty."""
    weights = read_pose_weights()
    rows = {name: getattr(weights, name) for name in weights.__dataclass_fields__}

    assert {row.kind for row in rows.values()} <= {"common-practice", "memory"}
    assert all(row.value > 0.0 for row in rows.values())
    assert weights.small_foot_share.value + weights.edge_foot_share.value < 1.0
    assert weights.print_min.value == 1.0

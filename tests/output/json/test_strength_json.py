"""JSON of strength: a part without a figure keeps all its keys."""

from __future__ import annotations

from typing import Any, cast

from planner.output.json.strength_json import strength_json
from planner.strength import Screened, Unscreened, unscreened


def test_an_unknown_part_has_nulls_and_says_why() -> None:
    """Every key of the contract is there."""
    found = strength_json(
        100.0,
        None,
        [(Screened(part="jaw", known=False, unknown=Unscreened.NO_LOAD), unscreened("jaw", Unscreened.NO_LOAD))],
    )

    assert (found["verdict"], found["schema"]) == ("hold", "fitwright/strength/1")
    (part,) = cast("list[dict[str, Any]]", found["parts"])
    assert (part["share_percent"], part["weakest_mm"], part["unknown"]) == (None, None, "no load is stated")
    assert (part["method"], part["beam"], part["elements"], part["difference"]) == ("beam", None, None, "")
    assert {"method", "load_n", "stress_mpa", "strength_mpa", "direction", "remedies", "converged_percent"} <= set(part)

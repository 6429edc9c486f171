"""A joint's range: what ends it at either end, also where only one end is stopped."""

from __future__ import annotations

import pytest

from planner.mechanism.range.joint_range import JointRange, Ranges, Stop

LOW, HIGH = Stop(at_deg=-20.0, what="meets"), Stop(at_deg=70.0, what="stated")


@pytest.mark.parametrize(
    ("free", "stops", "ends"),
    [
        ((-20.0, 70.0), (LOW, HIGH), (LOW, HIGH)),
        ((None, 70.0), (HIGH,), (None, HIGH)),
        ((-20.0, None), (LOW,), (LOW, None)),
        ((None, None), (), (None, None)),
    ],
)
def test_each_end_has_its_own_stop(
    free: tuple[float | None, float | None], stops: tuple[Stop, ...], ends: tuple[Stop | None, Stop | None]
) -> None:
    """The one stop of a range with one end belongs to that end."""
    assert JointRange(joint="a to b", free_deg=free, stops=stops).ends == ends


def test_a_joint_is_found_by_its_name_or_not_at_all() -> None:
    """A name that no joint has is a KeyError."""
    ranges = Ranges(joints=(JointRange(joint="a to b", free_deg=(None, None), stops=()),), untried=())

    assert ranges.of("a to b").joint == "a to b"
    with pytest.raises(KeyError):
        ranges.of("a to c")

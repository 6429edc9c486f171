"""Time left is what counted steps took here; where nothing was measured, nothing is promised."""

from __future__ import annotations

from typing import Any

from planner.desk.step_clock import PLAN_STEPS, StepClock


class _Clock:
    """A clock that stands until it is told to go on."""

    def __init__(self) -> None:
        self.at_s = 0.0

    def __call__(self) -> float:
        return self.at_s


def _told(clock: StepClock, time: _Clock, at_s: float, what: str) -> dict[str, Any]:
    time.at_s = at_s
    clock.report(what)
    return clock.told()


def test_of_four_parts_one_took_six_seconds_three_are_left() -> None:
    """18 s of the step at hand, by hand; of all nobody knows yet."""
    time = _Clock()
    clock = StepClock(steps=PLAN_STEPS, parts_n=4, clock=time)
    first = _told(clock, time, 0.0, "measuring jaw")
    then = _told(clock, time, 6.0, "measuring pad")

    assert (first["done"], first["left_s"]) == (0, None)
    assert (then["done"], then["of"], then["left_s"], then["left_of"]) == (1, 4, 18.0, "step")
    assert (then["step"], then["steps"]) == (2, 8)


def test_a_second_run_knows_all_that_is_left() -> None:
    """Each of eight steps took 10 s: two seconds into the packing, 8 s of it and 30 s of three more are left."""
    time, took_s = _Clock(), dict.fromkeys(PLAN_STEPS, 10.0)
    clock = StepClock(steps=PLAN_STEPS, parts_n=4, took_s=took_s, clock=time)
    _told(clock, time, 1.0, "packing plates")
    time.at_s = 3.0

    assert (clock.told()["left_s"], clock.told()["left_of"]) == (38.0, "all")


def test_what_takes_longer_than_the_last_time_promises_nothing() -> None:
    """Twelve seconds into a step that took ten."""
    time = _Clock()
    clock = StepClock(steps=PLAN_STEPS, parts_n=4, took_s=dict.fromkeys(PLAN_STEPS, 10.0), clock=time)
    _told(clock, time, 0.0, "packing plates")
    time.at_s = 12.0

    assert clock.told()["left_s"] is None


def test_the_share_never_goes_back() -> None:
    """Through a whole plan, and through words that are no step."""
    time, shares = _Clock(), list[float]()
    clock = StepClock(steps=PLAN_STEPS, parts_n=2, clock=time)
    words = [f"{step} {part}" for step in PLAN_STEPS for part in ("a", "b", "c")]
    for n, what in enumerate([*words[:9], "other work", *words[9:]]):
        shares.append(_told(clock, time, float(n), what)["share"])

    assert shares == sorted(shares)
    assert shares[-1] < 1.0

"""What ends a joint's range, in words."""

from __future__ import annotations

from planner.mechanism.range.joint_range import Stop


def stop_words(stop: Stop) -> str:
    """Return what ends a range, without its value.

    >>> stop_words(Stop(at_deg=30.0, what="meets", parts=("deck", "jaw")))
    'jaw meets deck'
    """
    if stop.what == "stated":
        return "the limit that the job states"
    if stop.what == "locked" or len(stop.parts) < 2:
        return "the closed chain of parts goes no farther"
    if stop.what == "near":
        return f"{stop.parts[1]} comes too near to {stop.parts[0]}"
    return f"{stop.parts[1]} meets {stop.parts[0]}"

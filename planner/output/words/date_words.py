"""When a device is ready, in words: if nothing fails, in simulated runs, and with each change that would help."""

from __future__ import annotations

from planner.phrases import moment
from planner.schedule import Clocks, Way


def ready_words(clocks: Clocks) -> str:
    """Return when the device is ready, if nothing fails and in simulated runs; empty where no time was found."""
    if clocks.ready is None or clocks.ready_p90 is None:
        return ""
    return (
        f"ready {moment(clocks.ready)} if nothing fails. Simulated with failures and slow prints: ready by "
        f"{moment(clocks.ready_p90)} in 90 of 100 runs{_average(clocks)}{_kept(clocks)}."
    )


def _average(clocks: Clocks) -> str:
    """Return when it is ready on average; where a few runs end far later, that is after what 90 of 100 reach."""
    if clocks.ready_expected is None or clocks.ready_p90 is None:
        return ""
    few = ", because a few runs end much later" if clocks.ready_expected > clocks.ready_p90 else ""
    return f", {moment(clocks.ready_expected)} on average{few}"


def _kept(clocks: Clocks) -> str:
    """Return how often the deadline is met."""
    return "" if clocks.kept_percent is None else f"; the deadline is met in {clocks.kept_percent:.0f} of 100"


def way_words(way: Way) -> str:
    """Return what would help, when the device is ready then, and what it costs."""
    costs = f"; cost: {way.costs}" if way.costs else ""
    if way.ready is None:
        left = f"{way.unmet_n} plates" if way.unmet_n else "the work by hand"
        return f"{way.what}: no time found for {left}{costs}"
    late = f", {way.late_days} d late" if way.late_days else ""
    return f"{way.what}: ready {'' if way.solved else 'about '}{moment(way.ready)}{late}{costs}"

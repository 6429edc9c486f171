"""On which side of a joint's axis a return elastic lies: past the axis it pulls shut what it ought to open."""

from __future__ import annotations

from collections.abc import Sequence

from planner.mechanism.strung.at_hand import Pulled


def shuts_words(pulled: Sequence[Pulled]) -> str:
    """Return one sentence where an elastic turns a joint the way that its cord does; empty where all open everywhere.

    Both want to get shorter: over the angle their lengths change in the same sense there.
    """
    for each in pulled:
        closes = sum(each.joint.pull.run.arm_mm)
        for band in each.joint.elastics:
            run = band.run
            shut = [arm * closes > 0.0 for arm in run.arm_mm]
            if all(shut):
                return f"{band.name} pulls {each.leg.joint.name} shut at every place, as the cord does"
            if any(shut) and run.dead_deg:
                at = f"{run.dead_deg[0]:.0f}{' mm' if run.slides else '°'}"
                return f"at {at} {band.name} passes the axis of {each.leg.joint.name}: beyond, it pulls it shut"
    return ""

"""On which side of a joint's axis a return elastic lies: past the axis it pulls shut what it ought to open."""

from __future__ import annotations

from collections.abc import Sequence

from planner.mechanism.cord_effects.pull_of_one_table import Pulled


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
                unit, angles = " mm" if run.slides else "°", run.angles_deg
                low = angles[0] if shut[0] else run.dead_deg[0]
                high = angles[-1] if shut[-1] else run.dead_deg[-1]
                return (
                    f"{band.name} passes the axis of {each.leg.joint.name} at {run.dead_deg[0]:.0f}{unit}, and from "
                    f"{low:.0f} to {high:.0f}{unit} it pulls it shut"
                )
    return ""

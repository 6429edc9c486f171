"""The function test: what is tested on the bench before anybody wears the device, and its form."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.job import kind_of
from planner.output.paper_files.sheet import Block, Card, Lines, Rows, Sheet, Words
from planner.output.papers.drill_list import work_of
from planner.output.words.paper_words import PRACTICE
from planner.output.words.strength_words import PROOF_RATIO
from planner.plan import Plan
from planner.scale import Scale

G_M_S2 = 9.80665
"""Standard acceleration of free fall (CGPM 1901), exact."""
TIMES_N = 20
HOLD_S = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One trial: its name in the record, how it is done, and what passes."""

    name: str
    how: str
    passes: str
    most_g: float | None = None
    """The largest reading that passes, where it is read as a number."""


def trials_of(plan: Plan) -> tuple[Trial, ...]:
    """Return the trials of a device, in the order to do them; their names are unique."""
    job = plan.job
    found: list[Trial] = []
    if job.size.side is not None:
        worn = f"it fits the {job.size.side} side"
        found.append(Trial(name="side", how="hold it as it is worn", passes=worn))
    found.append(
        Trial(name="pieces", how="count them against the bag list", passes="none is missing, cracked or white")
    )
    if work_of(plan):
        found.append(Trial(name="work", how="go through the drill list", passes="all is ticked, walls are as listed"))
    for gap in job.gaps:
        one, other = gap.between
        name = f"{other} in {one}"
        found.append(Trial(name=name, how=f"move it {TIMES_N} times", passes="moves freely, rubs nowhere"))
    for hardware in job.hardware:
        if hardware.fit == "turning":
            passes = "turns freely, no screw works loose"
            found.append(Trial(name=hardware.name, how=f"turn it {TIMES_N} times", passes=passes))
    found += _movement(plan)
    for cord in job.cords:
        back = "comes back by itself" if cord.kind == "elastic" else "runs freely, does not fray"
        found.append(Trial(name=cord.name, how=f"pull it all the way {TIMES_N} times", passes=back))
    for strap in job.straps:
        found.append(Trial(name=strap.name, how="close it, pull hard by hand", passes="holds, lies flat, opens again"))
    if job.use.load_n is not None:
        proof_n = PROOF_RATIO * job.use.load_n
        how = (
            f"hang {proof_n / G_M_S2:.1f} kg ({proof_n:g} N, the stated load × {PROOF_RATIO:g}) from the grip for "
            f"{HOLD_S} s, on the bench, nobody near it{_watched(plan)}"
        )
        found.append(Trial(name="load", how=how, passes="nothing cracks, turns white, opens or stays bent"))
    found.append(Trial(name="small parts", how="pull caps, pads and screws by hand", passes="none comes off"))
    if job.use.skin:
        found.append(
            Trial(
                name="skin side",
                how="stroke with a cotton ball",
                passes="no fibre catches, no bare plastic or metal",
            )
        )
    if job.use.mass_limit_g is not None and plan.worn_g is not None:
        how = f"weigh it (planned: about {plan.worn_g:.0f} g)"
        found.append(
            Trial(name="mass", how=how, passes=f"{job.use.mass_limit_g:g} g or less", most_g=job.use.mass_limit_g)
        )
    return _apart(found)


def _watched(plan: Plan) -> str:
    """Return which part to watch under the load, in words; empty where no share is known."""
    weakest = max(
        (f for f in plan.findings if kind_of(f.rule).gives == "strength" and f.measured is not None),
        key=lambda f: f.measured or 0.0,
        default=None,
    )
    if weakest is None:
        return ""
    return f"; watch {weakest.part} at place 1 of the report"


def _movement(plan: Plan) -> list[Trial]:
    """Return what is measured of movement: each joint over what is needed, each cord's travel and pull."""
    if plan.movement is None:
        return []
    moved = plan.movement.at(Scale(plan.scale_percent).factor)
    found = []
    for joint in moved.joints:
        if joint.needs_deg is not None and not joint.unknown:
            low, high = (f"{end:g}{'°' if joint.unit == '°' else ' mm'}" for end in joint.needs_deg)
            how = f"move it from {low} to {high}"
            found.append(Trial(name=f"range of {joint.name}", how=how, passes="gets there, and nothing touches"))
    for cord in moved.cords:
        if cord.travel_mm is not None:
            how = f"mark the cord; close it and measure (computed: {cord.travel_mm:.1f} mm)"
            found.append(Trial(name=f"travel of {cord.name}", how=how, passes="it closes fully"))
        if cord.pull_n is not None and cord.grip_n is not None and plan.job.use.pull_n is not None:
            most = plan.job.limits.cord_share.value * plan.job.use.pull_n
            pull = f"{cord.pull_n[0]:.0f} to {cord.pull_n[2]:.0f} N"
            how = f"pull by a spring balance until the tip presses with {cord.grip_n:g} N (computed: {pull})"
            found.append(Trial(name=f"pull of {cord.name}", how=how, passes=f"{most:.0f} N or less"))
    return found


def _apart(trials: list[Trial]) -> tuple[Trial, ...]:
    """Return the trials with names that the record can tell apart: a cord may be called as a strap is."""
    seen: dict[str, int] = {}
    found = []
    for trial in trials:
        seen[trial.name] = seen.get(trial.name, 0) + 1
        found.append(trial if seen[trial.name] == 1 else replace(trial, name=f"{trial.name} ({seen[trial.name]})"))
    return tuple(found)


def function_test(plan: Plan) -> Sheet:
    """Return the form."""
    trials = trials_of(plan)
    blocks: list[Block] = [
        Words(text="Test on the bench, never on a person. Whoever assembled it must not test it.", tone="warning"),
        Rows(
            head=("test", "how", "passes if", "reading", "pass or fail"),
            rows=tuple((trial.name, trial.how, trial.passes, "", "") for trial in trials),
            shares=(1.9, 3.2, 3.0, 1.3, 1.3),
            written=True,
        ),
        Words(
            text="Write the results into record.toml. If one fails, repair the device and repeat all.",
            tone="strong",
        ),
        Words(
            text=f"Angles are from the drawn place. Repeats, seconds and who tests: {PRACTICE}. {_load(plan)}",
            tone="small",
        ),
        Lines(labels=("tested by (role)", "date")),
    ]
    card = Card(title="Function test", blocks=tuple(blocks))
    return Sheet(name="test", title="Function test", cards=(card,))


def _load(plan: Plan) -> str:
    """Say where the load comes from, or that none is stated."""
    if plan.job.use.load_n is None:
        return "The job states no load (load_n), so no load is tested."
    return "The load comes from the job; it says nothing about strength in use."

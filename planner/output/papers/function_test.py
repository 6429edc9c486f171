"""The function test: what is tested on the bench before anybody wears the device, and its form."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.job import kind_of
from planner.mechanism import Tip
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
OPEN_S = 2
SLIP_MM = 1.0
CYCLES_N = 200
"""Times, seconds and slip: common practice, no source."""
DROP_M, DROPS_N = 1.0, 3
"""As hand-held equipment is dropped by IEC 60601-1, 15.3.4.1: three times from one metre on hardwood (from memory)."""


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
        if hardware.turns:
            passes = "turns freely, no screw works loose"
            found.append(Trial(name=hardware.name, how=f"turn it {TIMES_N} times", passes=passes))
    found += _movement(plan)
    for cord in job.cords:
        back = "comes back by itself" if cord.kind == "elastic" else "runs freely, does not fray"
        found.append(Trial(name=cord.name, how=f"pull it all the way {TIMES_N} times", passes=back))
    for strap in job.straps:
        found.append(Trial(name=strap.name, how="close it, pull hard by hand", passes="holds, lies flat, opens again"))
    found += _in_use(plan)
    if job.use.load_n is not None:
        proof_n = PROOF_RATIO * job.use.load_n
        how = (
            f"hang {proof_n / G_M_S2:.1f} kg ({proof_n:g} N, the stated load × {PROOF_RATIO:g}) from the grip for "
            f"{HOLD_S} s, on the bench, nobody near it{_watched(plan)}"
        )
        found.append(Trial(name="load", how=how, passes="nothing cracks, turns white, opens or stays bent"))
    found.append(Trial(name="small parts", how="pull caps, pads and screws by hand", passes="none comes off"))
    if job.on_skin:
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


def _in_use(plan: Plan) -> list[Trial]:
    """Return what use does to it: pulled cords, many movements, a fall; nothing for a lone part that nothing joins."""
    job, found = plan.job, list[Trial]()
    if job.cords:
        passes = f"no cord breaks or frays, each knot slips less than {SLIP_MM:g} mm: mark them"
        found.append(Trial(name="cord proof", how=f"{_proof(plan)} for {HOLD_S} s, eyes covered", passes=passes))
    if any(cord.kind == "elastic" for cord in job.cords):
        how = f"close it fully and let go, {TIMES_N} times"
        found.append(
            Trial(name="re-opening", how=how, passes=f"open again within {OPEN_S} s each time, nothing sticks")
        )
    if plan.movement is not None or job.gaps or job.cords:
        how = f"move it over its whole range {CYCLES_N} times, under the grip or load of use"
        passes = "no crack, nothing loose, cord travel within 1 mm of before"
        found.append(Trial(name="cycles", how=how, passes=passes))
    if len(job.parts) > 1 or job.hardware:
        how = f"let it fall from {DROP_M:g} m on a hardwood board, {DROPS_N} times, each time on another side"
        found.append(Trial(name="drop", how=how, passes="nothing cracks, comes off or opens; it moves as before"))
    return found


def _proof(plan: Plan) -> str:
    """Return how cords are proved: by more than their greatest computed pull, or by hand where none is known."""
    if plan.movement is not None:
        cords = plan.movement.at(Scale(plan.scale_percent).factor).cords
        pulls = [cord.pull_n[2] for cord in cords if cord.pull_n is not None]
        if pulls:
            proof_n = PROOF_RATIO * max(pulls)
            return f"hold it closed, pull each cord with {proof_n:.0f} N (the most computed × {PROOF_RATIO:g})"
    return "pull each cord as hard as its user can"


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
            found.append(Trial(name=f"closing force of {cord.name}", how=how, passes=f"{most:.0f} N or less"))
    return [*found, *_at_the_tip(plan, moved.tip)]


def _at_the_tip(plan: Plan, tip: Tip | None) -> list[Trial]:
    """Return what is measured where it grips: how far fingers miss each other, and how hard they press."""
    if tip is None:
        return []
    found = []
    computed = [mm for mm in (tip.spread_mm, tip.wobble_mm and tip.wobble_mm[0]) if mm is not None]
    stated_mm = plan.job.use.wobble_mm
    if stated_mm is not None or computed:
        how = "close it until one tip touches; measure how far the tips miss each other"
        most_mm, told = (sum(computed), "the most computed") if stated_mm is None else (stated_mm, "as stated")
        found.append(Trial(name="spread at contact", how=how, passes=f"{most_mm:.1f} mm or less ({told})"))
    if plan.job.use.wanted_grip_n is not None:
        how = "close it on a spring balance, with the pull of use"
        found.append(Trial(name="grip", how=how, passes=f"{plan.job.use.wanted_grip_n:g} N or more"))
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
            text=f"Angles are from the drawn place. Repeats, seconds, slip and who tests: {PRACTICE}. Drop: as IEC "
            "60601-1, 15.3.4.1 has it for hand-held equipment (from memory). Tests wear a device: renew marked ones. "
            f"{_load(plan)}",
            tone="small",
        ),
        Lines(labels=("assembled by (role)", "tested by (role), another person", "date")),
    ]
    card = Card(title="Function test", blocks=tuple(blocks))
    return Sheet(name="test", title="Function test", cards=(card,))


def _load(plan: Plan) -> str:
    """Say where the load comes from, or that none is stated."""
    if plan.job.use.load_n is None:
        return "The job states no load (load_n), so no load is tested."
    return "The load comes from the job; it says nothing about strength in use."

"""The function test: what is tested on the bench before anybody wears the device, and its form."""

from __future__ import annotations

from dataclasses import dataclass, replace

from planner.job import kind_of
from planner.mechanism import Tip
from planner.output.bench.translated import own_head, unsigned
from planner.output.paper_files.sheet import Block, Card, Lines, Rows, Sheet, Words
from planner.output.papers.drill_list import work_of
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, Tongue
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


def trials_of(plan: Plan, tongue: Tongue = ENGLISH) -> tuple[Trial, ...]:
    """Return the trials of a device, in the order to do them; their names are unique."""
    job, say = plan.job, tongue.say
    found: list[Trial] = []
    if job.size.side is not None:
        fits = say("it fits the left side") if job.size.side == "left" else say("it fits the right side")
        found.append(Trial(name=say("side"), how=say("hold it as it is worn"), passes=fits))
    how, passes = say("count them against the bag list"), say("none is missing, cracked or white")
    found.append(Trial(name=say("pieces"), how=how, passes=passes))
    if work_of(plan):
        how, passes = say("go through the drill list"), say("all is ticked, walls are as listed")
        found.append(Trial(name=say("work"), how=how, passes=passes))
    for gap in job.gaps:
        one, other = (tongue.kept(name) for name in gap.between)
        how = say("move it {times}", times=_times(TIMES_N, tongue))
        name = say("{part} in {other}", part=other, other=one)
        found.append(Trial(name=name, how=how, passes=say("moves freely, rubs nowhere")))
    for hardware in job.hardware:
        if hardware.turns:
            how = say("turn it {times}", times=_times(TIMES_N, tongue))
            found.append(Trial(name=hardware.name, how=how, passes=say("turns freely, no screw works loose")))
    found += _movement(plan, tongue)
    for cord in job.cords:
        back = say("comes back by itself") if cord.kind == "elastic" else say("runs freely, does not fray")
        how = say("pull it all the way {times}", times=_times(TIMES_N, tongue))
        found.append(Trial(name=cord.name, how=how, passes=back))
    for strap in job.straps:
        how, passes = say("close it, pull hard by hand"), say("holds, lies flat, opens again")
        found.append(Trial(name=strap.name, how=how, passes=passes))
    return _apart([*found, *_in_use(plan, tongue), *_at_the_end(plan, tongue)])


def _at_the_end(plan: Plan, tongue: Tongue) -> list[Trial]:
    """Return what is tried last: the load, what could come off, the skin side and the mass."""
    job, say = plan.job, tongue.say
    found = list[Trial]()
    if job.use.load_n is not None:
        passes = say("nothing cracks, turns white, opens or stays bent")
        found.append(Trial(name=say("load"), how=_hung(plan, job.use.load_n, tongue), passes=passes))
    how, passes = say("pull caps, pads and screws by hand"), say("none comes off")
    found.append(Trial(name=say("small parts"), how=how, passes=passes))
    if job.on_skin:
        how, passes = say("stroke with a cotton ball"), say("no fibre catches, no bare plastic or metal")
        found.append(Trial(name=say("skin side"), how=how, passes=passes))
    if job.use.mass_limit_g is not None and plan.worn_g is not None:
        how = say("weigh it (planned: about {mass})", mass=tongue.amount(f"{plan.worn_g:.0f} g"))
        passes = say("{most} or less", most=tongue.amount(f"{job.use.mass_limit_g:g} g"))
        found.append(Trial(name=say("mass"), how=how, passes=passes, most_g=job.use.mass_limit_g))
    return found


def _in_use(plan: Plan, tongue: Tongue) -> list[Trial]:
    """Return what use does to it: pulled cords, many movements, a fall; nothing for a lone part that nothing joins."""
    job, found, say = plan.job, list[Trial](), tongue.say
    if job.cords:
        passes = say(
            "no cord breaks or frays, each knot slips less than {most}: mark them",
            most=tongue.amount(f"{SLIP_MM:g} mm"),
        )
        found.append(Trial(name=say("cord proof"), how=_proof(plan, tongue), passes=passes))
    if any(cord.kind == "elastic" for cord in job.cords):
        how = say("close it fully and let go, {times}", times=_times(TIMES_N, tongue))
        passes = say("open again within {time} each time, nothing sticks", time=tongue.amount(f"{OPEN_S} s"))
        found.append(Trial(name=say("re-opening"), how=how, passes=passes))
    if plan.movement is not None or job.gaps or job.cords:
        how = say("move it over its whole range {times}, under the grip or load of use", times=_times(CYCLES_N, tongue))
        passes = say("no crack, nothing loose, cord travel within {most} of before", most=tongue.amount("1 mm"))
        found.append(Trial(name=say("cycles"), how=how, passes=passes))
    if len(job.parts) > 1 or job.hardware:
        how = say(
            "let it fall from {high} on a hardwood board, {times}, each time on another side",
            times=_times(DROPS_N, tongue),
            high=tongue.amount(f"{DROP_M:g} m"),
        )
        passes = say("nothing cracks, comes off or opens; it moves as before")
        found.append(Trial(name=say("drop"), how=how, passes=passes))
    return found


def _times(count: int, tongue: Tongue) -> str:
    """Return how often something is done."""
    return tongue.many("{n} time", "{n} times", count)


def _proof(plan: Plan, tongue: Tongue) -> str:
    """Return how cords are proved: by more than their greatest computed pull, or by hand where none is known."""
    time = tongue.amount(f"{HOLD_S} s")
    if plan.movement is not None:
        cords = plan.movement.at(Scale(plan.scale_percent).factor).cords
        pulls = [cord.pull_n[2] for cord in cords if cord.pull_n is not None]
        if pulls:
            return tongue.say(
                "wear eye protection; hold it closed and pull each cord with {force} ({ratio} × the greatest computed "
                "pull) for {time}",
                force=tongue.amount(f"{PROOF_RATIO * max(pulls):.0f} N"),
                ratio=tongue.number(f"{PROOF_RATIO:g}"),
                time=time,
            )
    return tongue.say("wear eye protection; pull each cord as hard as its user can for {time}", time=time)


def _hung(plan: Plan, load_n: float, tongue: Tongue) -> str:
    """Return how the load is hung, and which part to watch, where the share of its strength that it bears is known."""
    proof_n = PROOF_RATIO * load_n
    how = tongue.say(
        "hang {mass} ({force}, the stated load × {ratio}) from the grip for {time}, on the bench, nobody near it",
        mass=tongue.amount(f"{proof_n / G_M_S2:.1f} kg"),
        force=tongue.amount(f"{proof_n:g} N"),
        ratio=tongue.number(f"{PROOF_RATIO:g}"),
        time=tongue.amount(f"{HOLD_S} s"),
    )
    weakest = max(
        (f for f in plan.findings if kind_of(f.rule).gives == "strength" and f.measured is not None),
        key=lambda f: f.measured or 0.0,
        default=None,
    )
    if weakest is None:
        return how
    watch = tongue.say("watch {part} at place 1 of the report", part=tongue.kept(weakest.part))
    return tongue.say("{first}; {second}", first=how, second=watch)


def _movement(plan: Plan, tongue: Tongue) -> list[Trial]:
    """Return what is measured of movement: each joint over what is needed, each cord's travel and pull."""
    if plan.movement is None:
        return []
    say, amount, kept = tongue.say, tongue.amount, tongue.kept
    moved = plan.movement.at(Scale(plan.scale_percent).factor)
    found = []
    for joint in moved.joints:
        if joint.needs_deg is not None and not joint.unknown:
            low, high = (amount(f"{end:g}{'°' if joint.unit == '°' else ' mm'}") for end in joint.needs_deg)
            how = say("move it from {low} to {high}", low=low, high=high)
            name = say("range of {joint}", joint=kept(joint.name))
            found.append(Trial(name=name, how=how, passes=say("gets there, and nothing touches")))
    for cord in moved.cords:
        if cord.travel_mm is not None:
            travel = amount(f"{cord.travel_mm:.1f} mm")
            how = say("mark the cord; close it and measure (computed: {travel})", travel=travel)
            name = say("travel of {cord}", cord=kept(cord.name))
            found.append(Trial(name=name, how=how, passes=say("it closes fully")))
        if cord.pull_n is not None and cord.grip_n is not None and plan.job.use.pull_n is not None:
            most = plan.job.limits.cord_share.value * plan.job.use.pull_n
            how = say(
                "pull with a spring balance until the tip presses with {grip}; read the balance (computed pull: {low} "
                "to {high})",
                grip=amount(f"{cord.grip_n:g} N"),
                low=amount(f"{cord.pull_n[0]:.0f}"),
                high=amount(f"{cord.pull_n[2]:.0f} N"),
            )
            name = say("closing force of {cord}", cord=kept(cord.name))
            found.append(Trial(name=name, how=how, passes=say("{most} or less", most=amount(f"{most:.0f} N"))))
    return [*found, *_at_the_tip(plan, moved.tip, tongue)]


def _at_the_tip(plan: Plan, tip: Tip | None, tongue: Tongue) -> list[Trial]:
    """Return what is measured where it grips: how far fingers miss each other, and how hard they press."""
    if tip is None:
        return []
    found, say = [], tongue.say
    computed = [mm for mm in (tip.spread_mm, tip.wobble_mm and tip.wobble_mm[0]) if mm is not None]
    stated_mm = plan.job.use.wobble_mm
    if stated_mm is not None or computed:
        how = say("close it until one tip touches; measure how far the tips miss each other")
        most = tongue.amount(f"{sum(computed) if stated_mm is None else stated_mm:.1f} mm")
        passes = (
            say("{most} or less (the most computed)", most=most)
            if stated_mm is None
            else say("{most} or less (as stated)", most=most)
        )
        found.append(Trial(name=say("spread at contact"), how=how, passes=passes))
    if plan.job.use.wanted_grip_n is not None:
        how = say("close it on a spring balance, with the pull of use")
        passes = say("{least} or more", least=tongue.amount(f"{plan.job.use.wanted_grip_n:g} N"))
        found.append(Trial(name=say("grip"), how=how, passes=passes))
    return found


def _apart(trials: list[Trial]) -> tuple[Trial, ...]:
    """Return the trials with names that the record can tell apart: a cord may be called as a strap is."""
    seen: dict[str, int] = {}
    found = []
    for trial in trials:
        seen[trial.name] = seen.get(trial.name, 0) + 1
        found.append(trial if seen[trial.name] == 1 else replace(trial, name=f"{trial.name} ({seen[trial.name]})"))
    return tuple(found)


def function_test(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the form; in another language each test has its English below, for the record names it so."""
    say = tongue.say
    blocks: list[Block] = [
        *unsigned(tongue),
        Words(
            text=tongue.beside(
                lambda t: t.say("Test on the bench, never on a person. Whoever assembled it must not test it.")
            ),
            tone="warning",
        ),
        Rows(
            head=(say("test"), say("how"), say("passes if"), say("reading"), say("pass or fail")),
            rows=_rows(plan, tongue),
            shares=(1.9, 3.2, 3.0, 1.3, 1.3),
            written=True,
        ),
        Words(
            text=tongue.beside(
                lambda t: t.say(
                    "Write the results into {file}. If one fails, repair the device and repeat all.",
                    file=t.kept("record.toml"),
                )
            ),
            tone="strong",
        ),
        Words(
            text=say(
                "Angles are from the drawn place. Repeats, seconds, slip and who tests: common practice, no source. "
                "Drop: as {clause} has it for hand-held equipment (from memory). Testing wears parts out: "
                "replace those that show marks.",
                clause=tongue.kept("IEC 60601-1, 15.3.4.1"),
            ),
            tone="small",
        ),
        Words(text=_load(plan, tongue), tone="small"),
        Lines(labels=(say("assembled by (role)"), say("tested by (role), another person"), say("date"))),
    ]
    card = Card(title=say("Function test"), blocks=tuple(blocks))
    return Sheet(name="test", title=say("Function test"), cards=(card,), head=own_head(plan, tongue))


def _rows(plan: Plan, tongue: Tongue) -> tuple[tuple[str, ...], ...]:
    """Return the tests as rows, with the name that the record has for each, and with English for all that is done."""
    found = []
    for here, english in zip(trials_of(plan, tongue), trials_of(plan), strict=True):
        named = here.name if here.name == english.name else f"{here.name}{ENGLISH_BELOW}{english.name}"
        done = [
            f"{one}{ENGLISH_BELOW}{other}" if tongue.keeps_english else one
            for one, other in ((here.how, english.how), (here.passes, english.passes))
        ]
        found.append((named, *done, "", ""))
    return tuple(found)


def _load(plan: Plan, tongue: Tongue) -> str:
    """Say where the load comes from, or that none is stated."""
    if plan.job.use.load_n is None:
        return tongue.say("The job states no load (load_n), so no load is tested.")
    return tongue.say("The load comes from the job; it says nothing about strength in use.")

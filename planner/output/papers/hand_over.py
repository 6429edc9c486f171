"""The hand-over sheet, in plain words, for the person who takes the device; stamped by the release."""

from __future__ import annotations

from planner.output.bench.translated import own_head, unsigned
from planner.output.bench.wear_in import MARKS_MIN, asked_again, wear_in
from planner.output.paper_files.sheet import Block, Card, Facts, Heading, Lines, Sheet, Stamp, Ticks, Words
from planner.output.record.release import Release
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.missing_words import answered_words, missing_words
from planner.output.words.paper_words import head_of, percent, worn
from planner.plan import Plan
from planner.rules import hottest

SHOWN_N = 8
"""So many missing items are listed on the sheet; the record has them all."""
DAYS_A_MONTH = 30.44


def hand_over(plan: Plan, judged: Release | None, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the sheet; without a release it says NOT RELEASED."""
    say = tongue.say
    blocks: list[Block] = [_stamp(judged, tongue), *unsigned(tongue), *_open(judged, tongue)]
    blocks += [
        Facts(rows=_facts(plan, judged, tongue)),
        Words(text=say("Read this together. Tick what was shown and understood.")),
        Heading(text=say("Wear it")),
        Ticks(steps=_wear(plan, tongue)),
        *wear_in(plan, tongue),
        Heading(text=say("Look after it")),
        Ticks(steps=_keep(plan, tongue)),
        Heading(text=tongue.beside(lambda t: t.say("Take it off at once and call us when"))),
        Ticks(steps=_stop(plan, tongue)),
        *asked_again(plan, tongue),
        Words(text=tongue.beside(_limits), tone="warning"),
        Lines(
            labels=(
                say("handed over by (role)"),
                say("date"),
                say("received by (mark)"),
                say("spare parts given"),
            )
        ),
    ]
    title = say("Hand-over")
    card = Card(title=title, blocks=tuple(blocks))
    return Sheet(name="hand-over", title=title, cards=(card,), head=own_head(plan, tongue))


def _limits(tongue: Tongue) -> str:
    """Return what nobody here has judged."""
    return tongue.say(
        "Volunteers made this device and checked its size and its joints. Nobody here judged how strong it is in use, "
        "how it fits your body, or anything medical. Your prosthetist or therapist and the rules where you live decide."
    )


def _stamp(judged: Release | None, tongue: Tongue) -> Stamp:
    """Return the stamp."""
    not_released = tongue.beside(lambda t: t.say("NOT RELEASED"))
    if judged is None:
        below = tongue.say("Fill in bench/record.toml, then run: {command}", command="fitwright release JOB")
        return Stamp(text=not_released, below=below)
    day = judged.day
    if not judged.released:
        below = tongue.beside(
            lambda t: t.many(
                "{n} item missing on {day}. Do not hand it over.",
                "{n} items missing on {day}. Do not hand it over.",
                len(judged.missing),
                day=t.day(day),
            )
        )
        return Stamp(text=not_released, below=below)
    if judged.answered:
        below = tongue.beside(
            lambda t: t.many(
                "{day}, with {n} exception approved by role: see below",
                "{day}, with {n} exceptions approved by role: see below",
                len(judged.answered),
                day=t.day(day),
            )
        )
        return Stamp(text=tongue.beside(lambda t: t.say("RELEASED BY OVERRIDE")), below=below)
    below = tongue.say("{day}: tests, lots, roles and measures are in the record", day=tongue.day(day))
    return Stamp(text=tongue.say("RELEASED"), below=below)


def _open(judged: Release | None, tongue: Tongue) -> list[Block]:
    """Return what is missing, and what somebody answers for."""
    if judged is None:
        return []
    blocks: list[Block] = []
    if judged.missing:
        more = len(judged.missing) - SHOWN_N
        steps = [missing_words(one, tongue) for one in judged.missing[:SHOWN_N]]
        if more > 0:
            command = "fitwright release"
            steps.append(
                tongue.many(
                    "and {n} more: {command} lists it", "and {n} more: {command} lists them", more, command=command
                )
            )
        blocks += [Heading(text=tongue.say("Missing")), Ticks(steps=tuple(steps))]
    if judged.answered:
        told = [Words(text=answered_words(one, tongue)) for one in judged.answered]
        blocks += [Heading(text=tongue.say("Approved exceptions")), *told]
    return blocks


def _facts(plan: Plan, judged: Release | None, tongue: Tongue) -> tuple[tuple[str, str, str], ...]:
    """Return what it is."""
    job, head, say = plan.job, head_of(plan, tongue), tongue.say
    who = dict(judged.record.roles) if judged else {}
    tested = tongue.day(judged.record.tested_on) if judged and judged.record.tested_on else say("not yet")
    size = tongue.amount(percent(plan.scale_percent))
    by = who.get("tested") or say("nobody yet")
    return (
        (
            say("this is"),
            job.name,
            say("{side}, printed at {percent} of the drawn size", side=head.side, percent=size),
        ),
        (say("for"), job.recipient or say("no code stated"), say("a code instead of a name")),
        (say("weighs"), *worn(plan, tongue)),
        (
            say("made of"),
            say("{material}, a printed plastic", material=plan.material.name),
            _beside(plan, tongue),
        ),
        (say("tested"), tested, say("by: {role}", role=by)),
    )


def _beside(plan: Plan, tongue: Tongue) -> str:
    """Return what else it is made of, for whoever has an allergy."""
    kinds, say = {cut.kind for cut in plan.cuts}, tongue.say
    there = [
        *([say("metal screws, nuts or pins")] if any(not line.printed for line in plan.hardware) else []),
        *([say("cord")] if kinds & {"braided", "elastic"} else []),
        *([say("straps")] if "webbing" in kinds else []),
        *([say("padding")] if "padding" in kinds else []),
    ]
    return say("and {list}", list=tongue.listed(there)) if there else say("and nothing else")


def _wear(plan: Plan, tongue: Tongue) -> tuple[str, ...]:
    """Return how to wear it."""
    job, steps = plan.job, []
    if job.size.side == "left":
        steps.append(tongue.beside(lambda t: t.say("It is for the left side only.")))
    elif job.size.side == "right":
        steps.append(tongue.beside(lambda t: t.say("It is for the right side only.")))
    steps.append(
        tongue.beside(
            lambda t: t.say(
                "This sheet allows no load: nobody judged how strong it is. Lift only what you tried with the person "
                "who hands it over, and nothing that would hurt somebody if it fell."
            )
        )
    )
    steps.append(
        tongue.beside(lambda t: t.say("Do not climb with it, lift people with it, or hold hot or heavy things."))
    )
    age = job.use.recipient_age_years
    if job.use.mouthing or (age is not None and age < job.limits.small_age_years.value):
        steps.append(
            tongue.beside(
                lambda t: t.say("It has small parts. If the wearer puts things in the mouth, ask your clinician first.")
            )
        )
    return tuple(steps)


def _keep(plan: Plan, tongue: Tongue) -> tuple[str, ...]:
    """Return how to keep it."""
    job = plan.job

    def heat(one: Tongue) -> str:
        """Return what heat does to it."""
        hot = hottest(job)
        told = one.say(
            "Heat bends it: keep it below {most}. A parked car can reach {car} inside.",
            most=one.amount(f"{plan.material.service_c.value:g} °C"),
            car=one.amount("76 °C"),
        )
        if hot is None:
            return told
        return f"{told} {one.say('It was planned for at most {most}.', most=one.amount(f'{hot.hottest_c:g} °C'))}"

    steps = [
        tongue.beside(heat),
        tongue.beside(
            lambda t: t.say("Wash it with lukewarm water and a drop of soap. No hot water, no dishwasher, no dryer.")
        ),
        tongue.beside(
            lambda t: t.say("Once a week, look for cracks, white lines, loose screws, worn cord and sharp edges.")
        ),
        tongue.beside(lambda t: _measured_again(plan, t)),
    ]
    return tuple(steps)


def _measured_again(plan: Plan, tongue: Tongue) -> str:
    """Return when the size must be measured again."""
    job = plan.job
    child = job.use.recipient_age_years is None or job.use.recipient_age_years < job.limits.child_age_years.value
    days = (job.limits.stale_child_days if child else job.limits.stale_adult_days).value
    months_n = round(days / DAYS_A_MONTH)
    if child:
        return tongue.many(
            "Have the size measured again in {n} month: children grow.",
            "Have the size measured again in {n} months: children grow.",
            months_n,
        )
    return tongue.many(
        "Have the size measured again in {n} month, or when it feels different.",
        "Have the size measured again in {n} months, or when it feels different.",
        months_n,
    )


def _stop(plan: Plan, tongue: Tongue) -> tuple[str, ...]:
    """Return when to stop."""
    steps = [tongue.beside(lambda t: t.say("something cracks, bends, comes loose or starts to rattle"))]
    if plan.job.on_skin:
        steps.append(
            tongue.beside(
                lambda t: t.say(
                    "your skin hurts, swells, blisters, goes numb, or stays red {minutes} after you took it off: "
                    "show it to your clinician",
                    minutes=t.amount(f"{MARKS_MIN} min"),
                )
            )
        )
    if plan.job.cords:
        steps.append(tongue.beside(lambda t: t.say("a cord frays or sticks, or the grip does not open")))
    steps.append(tongue.beside(lambda t: t.say("it is too small or too large, or anything else worries you")))
    return tuple(steps)

"""The hand-over sheet, in plain words, for the person who takes the device; stamped by the release."""

from __future__ import annotations

from planner.output.bench.wear_in import MARKS_MIN, asked_again, wear_in
from planner.output.paper_files.sheet import Block, Card, Facts, Heading, Lines, Sheet, Stamp, Ticks, Words
from planner.output.record.release import Release
from planner.output.words.paper_words import head_of, percent, worn
from planner.phrases import listed, plural
from planner.plan import Plan
from planner.rules import hottest

NOT_RELEASED = "NOT RELEASED"
LIMITS = (
    "Volunteers made this device and checked its size and its joints. Nobody here judged how strong it is in use, "
    "how it fits your body, or anything medical. Your prosthetist or therapist and the rules where you live decide."
)
SHOWN_N = 8
"""So many missing items are listed on the sheet; the record has them all."""
DAYS_A_MONTH = 30.44


def hand_over(plan: Plan, judged: Release | None) -> Sheet:
    """Return the sheet; without a release it says NOT RELEASED."""
    blocks: list[Block] = [_stamp(judged), *_open(judged)]
    blocks += [
        Facts(rows=_facts(plan, judged)),
        Words(text="Read this together. Tick what was shown and understood."),
        Heading(text="Wear it"),
        Ticks(steps=_wear(plan)),
        *wear_in(plan),
        Heading(text="Look after it"),
        Ticks(steps=_keep(plan)),
        Heading(text="Take it off at once and call us when"),
        Ticks(steps=_stop(plan)),
        *asked_again(plan),
        Words(text=LIMITS, tone="warning"),
        Lines(labels=("handed over by (role)", "date", "received by (mark)", "spare parts given")),
    ]
    card = Card(title="Hand-over", blocks=tuple(blocks))
    return Sheet(name="hand-over", title="Hand-over", cards=(card,))


def _stamp(judged: Release | None) -> Stamp:
    """Return the stamp."""
    if judged is None:
        return Stamp(text=NOT_RELEASED, below="Fill in bench/record.toml, then run: fitwright release JOB")
    if not judged.released:
        n = len(judged.missing)
        phrase = f"{plural(n, 'item')} missing on {judged.day.isoformat()}. Do not hand it over."
        return Stamp(text=NOT_RELEASED, below=phrase)
    if judged.answered:
        n = len(judged.answered)
        phrase = f"{judged.day.isoformat()}, with {plural(n, 'exception')} approved by role: see below"
        return Stamp(text="RELEASED BY OVERRIDE", below=phrase)
    return Stamp(text="RELEASED", below=f"{judged.day.isoformat()}: tests, lots, roles and measures are in the record")


def _open(judged: Release | None) -> list[Block]:
    """Return what is missing, and what somebody answers for."""
    if judged is None:
        return []
    blocks: list[Block] = []
    if judged.missing:
        more = len(judged.missing) - SHOWN_N
        phrase = [f"{one.what}: {one.todo}" if one.todo else one.what for one in judged.missing[:SHOWN_N]]
        blocks += [
            Heading(text="Missing"),
            Ticks(steps=(*phrase, *([f"and {more} more: fitwright release lists them"] if more > 0 else []))),
        ]
    if judged.answered:
        phrase = [f"{one.missing.what}. Approved by the {one.lift.role}: {one.lift.reason}" for one in judged.answered]
        blocks += [Heading(text="Approved exceptions"), *(Words(text=line) for line in phrase)]
    return blocks


def _facts(plan: Plan, judged: Release | None) -> tuple[tuple[str, str, str], ...]:
    """Return what it is."""
    job, head = plan.job, head_of(plan)
    who = dict(judged.record.roles) if judged else {}
    tested = judged.record.tested_on.isoformat() if judged and judged.record.tested_on else "not yet"
    return (
        ("this is", job.name, f"{head.side}, printed at {percent(plan.scale_percent)} of the drawn size"),
        ("for", job.recipient or "no code stated", "a code instead of a name"),
        ("weighs", *worn(plan)),
        ("made of", f"{plan.material.name}, a printed plastic", _beside(plan)),
        ("tested", tested, f"by: {who.get('tested') or 'nobody yet'}"),
    )


def _beside(plan: Plan) -> str:
    """Return what else it is made of, for whoever has an allergy."""
    kinds = {cut.kind for cut in plan.cuts}
    there = [
        *(["metal screws, nuts or pins"] if any(not line.printed for line in plan.hardware) else []),
        *(["cord"] if kinds & {"braided", "elastic"} else []),
        *(["straps"] if "webbing" in kinds else []),
        *(["padding"] if "padding" in kinds else []),
    ]
    return f"and {listed(there)}" if there else "and nothing else"


def _wear(plan: Plan) -> tuple[str, ...]:
    """Return how to wear it."""
    job, steps = plan.job, []
    if job.size.side:
        steps.append(f"It is for the {job.size.side} side only.")
    steps.append(
        "This sheet allows no load: nobody judged how strong it is. Lift only what you tried with the person who hands "
        "it over, and nothing that would hurt somebody if it fell."
    )
    steps.append("Do not climb with it, lift people with it, or hold hot or heavy things.")
    age = job.use.recipient_age_years
    if job.use.mouthing or (age is not None and age < job.limits.small_age_years.value):
        steps.append("It has small parts. If the wearer puts things in the mouth, ask your clinician first.")
    return tuple(steps)


def _keep(plan: Plan) -> tuple[str, ...]:
    """Return how to keep it."""
    job = plan.job
    material = plan.material
    hot = hottest(job)
    place = f" It was planned for at most {hot.hottest_c:g} °C." if hot else ""
    child = job.use.recipient_age_years is None or job.use.recipient_age_years < job.limits.child_age_years.value
    days = (job.limits.stale_child_days if child else job.limits.stale_adult_days).value
    steps = [
        f"Heat bends it: keep it below {material.service_c.value:g} °C. A parked car can reach 76 °C inside.{place}",
        "Wash it with lukewarm water and a drop of soap. No hot water, no dishwasher, no dryer.",
        "Once a week, look for cracks, white lines, loose screws, worn cord and sharp edges.",
        f"Have the size measured again in {days / DAYS_A_MONTH:.0f} months"
        + (": children grow." if child else ", or when it feels different."),
    ]
    return tuple(steps)


def _stop(plan: Plan) -> tuple[str, ...]:
    """Return when to stop."""
    steps = ["something cracks, bends, comes loose or starts to rattle"]
    if plan.job.on_skin:
        steps.append(
            f"your skin hurts, swells, blisters, goes numb, or stays red {MARKS_MIN} min after you took it off: "
            "show it to your clinician"
        )
    if plan.job.cords:
        steps.append("a cord frays or sticks, or the grip does not open")
    steps.append("it is too small or too large, or anything else worries you")
    return tuple(steps)

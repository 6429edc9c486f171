"""What a family takes home beside the rules: how to get used to it, whom to ask, and when somebody asks them.

Leaflets of hospitals agree on how to begin, and on marks that stay; each is named where its figure stands. They speak
of splints that professionals fitted, so a clinician's own word goes before this table.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from planner.output.paper_files.sheet import Block, Heading, Rows, Ticks, Words
from planner.output.tongue import ENGLISH, Tongue
from planner.output.words.outgrown_words import outgrown_words
from planner.plan import Plan
from planner.size import outgrown

FIRST_MIN, MARKS_MIN = 30, 20
DAYS_N = 4
"""The first day's minutes are doubled each day: half an hour, one hour, two, four."""


def wear_in(plan: Plan, tongue: Tongue = ENGLISH) -> list[Block]:
    """Return how to put it on and off, the table of the first days, and how long marks may last."""
    say, gone = tongue.say, tongue.beside(_gone)
    rows = tuple(
        (say("day {n}", n=str(day + 1)), tongue.beside(partial(_hours, FIRST_MIN * 2**day)), gone, "", "")
        for day in range(DAYS_N)
    )
    last = (say("after that"), tongue.beside(lambda t: t.say("as your clinician says")), gone, "", "")
    return [
        Heading(text=say("On and off")),
        Ticks(steps=_on_and_off(plan, tongue)),
        Heading(text=say("The first days")),
        Rows(
            head=(
                say("day"),
                say("wear it at most"),
                say("red marks must be"),
                say("marks gone after"),
                say("checked by"),
            ),
            rows=(*rows, last),
            shares=(1.2, 2.0, 2.0, 1.8, 1.8),
            written=True,
        ),
        Words(
            text=tongue.beside(
                lambda t: t.say(
                    "Go on to the next day's time only if all red marks faded in time. If they did not, stop wearing "
                    "it, and ask before you go on."
                )
            )
        ),
        Words(text=_source(tongue), tone="small"),
    ]


def _on_and_off(plan: Plan, tongue: Tongue) -> tuple[str, ...]:
    """Return how to put it on, and how to take it off."""
    straps, padded = bool(plan.job.straps), bool(plan.job.paddings)

    def on(one: Tongue) -> str:
        if padded:
            return one.say("Put it on clean, dry skin or over a thin sleeve, its padding in place.")
        return one.say("Put it on clean, dry skin or over a thin sleeve.")

    def off(one: Tongue) -> str:
        if straps:
            return one.say(
                "Take it off: open every strap first, then slide it off; never pull. Look at your skin, all round."
            )
        return one.say("Take it off: slide it off; never pull or twist. Look at your skin, all round.")

    def close(one: Tongue) -> str:
        return one.say("Close every strap loosely first, then tighten each until just one finger fits under it.")

    def without(one: Tongue) -> str:
        return one.say("Take it off to sleep, to wash, near fire, and near machines that turn.")

    return tuple(tongue.beside(one) for one in (on, *([close] if straps else []), off, without))


def _gone(tongue: Tongue) -> str:
    """Return how soon marks must be gone."""
    return tongue.say("gone within {minutes}", minutes=tongue.amount(f"{MARKS_MIN} min"))


def _source(tongue: Tongue) -> str:
    """Return where the figures come from; leaflets keep the names under which they are found."""
    return tongue.say(
        "Sources: {first} at first, doubled while the skin stays well: {leaflet}. Marks gone within {marks}: {others}. "
        "Clean, dry skin: {sheet}. The rest: common practice, no source.",
        first=tongue.amount(f"{FIRST_MIN} min"),
        marks=tongue.amount(f"{MARKS_MIN} min"),
        leaflet="NHS Fife, leaflet on splint care",
        others="Cambridge University Hospitals NHS, leaflet on splints and braces; Children's Wisconsin, teaching "
        "sheet 1322",
        sheet="Children's Wisconsin, teaching sheet 1322",
    )


def asked_again(plan: Plan, tongue: Tongue = ENGLISH) -> list[Block]:
    """Return when somebody asks how it goes, when to measure again, and whom to ask."""
    say = tongue.say
    whens = (
        tongue.many("{n} week", "{n} weeks", 1),
        *(tongue.many("{n} month", "{n} months", months_n) for months_n in (1, 3, 6)),
    )
    told = [one for one in outgrown(plan.job, plan.measures) if one.known in ("small", "months", "grown")]
    spans = tuple(f"{outgrown_words(one, tongue)}." for one in told)
    small: list[Block] = [Heading(text=say("When it gets too small")), Ticks(steps=spans)] if spans else []
    return [
        Heading(text=say("We ask how it goes")),
        Rows(
            head=(say("after"), say("date"), say("by (role)"), say("how is it, is it worn, what changed")),
            rows=tuple((when, "", "", "") for when in whens),
            shares=(1.2, 1.6, 1.6, 4.4),
            written=True,
        ),
        *small,
        Heading(text=say("Whom to ask")),
        Rows(
            head=(say("about"), say("ask"), say("role and number")),
            rows=tuple((tongue.beside(about), tongue.beside(ask), "") for about, ask in WHOM),
            shares=(3.0, 3.2, 2.6),
            written=True,
        ),
    ]


WHOM: tuple[tuple[Callable[[Tongue], str], Callable[[Tongue], str]], ...] = (
    (
        lambda t: t.say("skin, pain, fit, how long to wear it"),
        lambda t: t.say("your prosthetist, therapist or doctor"),
    ),
    (
        lambda t: t.say("cracks, loose or lost pieces, size"),
        lambda t: t.say("us, who made it; do not repair it yourself"),
    ),
    (
        lambda t: t.say("an injury, a swallowed piece"),
        lambda t: t.say("the emergency number where you live"),
    ),
)
"""What may come up, and who answers it, in any language."""


def _hours(minutes: int, tongue: Tongue = ENGLISH) -> str:
    """Return minutes as hours from an hour on.

    >>> _hours(30), _hours(60), _hours(240)
    ('30 min', '1 hour', '4 hours')
    """
    if minutes < 60:
        return tongue.amount(f"{minutes} min")
    return tongue.many("{n} hour", "{n} hours", minutes // 60)

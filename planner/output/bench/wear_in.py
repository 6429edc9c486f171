"""What a family takes home beside the rules: how to get used to it, whom to ask, and when somebody asks them.

Leaflets of hospitals agree on how to begin, and on marks that stay; each is named where its figure stands. They speak
of splints that professionals fitted, so a clinician's own word goes before this table.
"""

from __future__ import annotations

from planner.output.paper_files.sheet import Block, Heading, Rows, Ticks, Words
from planner.output.words.outgrown_words import outgrown_words
from planner.output.words.paper_words import PRACTICE
from planner.plan import Plan
from planner.size import outgrown

FIRST_MIN, MARKS_MIN = 30, 20
DAYS_N = 4
"""The first day's minutes are doubled each day: half an hour, one hour, two, four."""
SOURCE = (
    f"Sources: {FIRST_MIN} min at first, doubled while the skin stays well: NHS Fife, leaflet on splint care. "
    f"Marks gone after {MARKS_MIN} min: Cambridge University Hospitals NHS, leaflet on splints and braces; "
    "Children's Wisconsin, teaching sheet 1322, which has clean, dry skin, too. The rest: "
)


def wear_in(plan: Plan) -> list[Block]:
    """Return how to put it on and off, the table of the first days, and how long marks may last."""
    straps, padded = bool(plan.job.straps), bool(plan.job.paddings)
    on = "Put it on clean, dry skin or over a thin sleeve" + (", its padding in place" if padded else "") + "."
    steps = [on]
    if straps:
        steps.append("Close every strap loosely first, then each so far that one finger still fits under it.")
    off = "open every strap first, then slide it off; never pull" if straps else "slide it off; never pull or twist"
    steps.append(f"Take it off: {off}. Look at your skin, all round.")
    steps.append("Take it off to sleep, to wash, near fire, and near machines that turn.")
    rows = tuple(
        (f"day {day + 1}", _hours(FIRST_MIN * 2**day), f"gone after {MARKS_MIN} min", "", "") for day in range(DAYS_N)
    )
    return [
        Heading(text="On and off"),
        Ticks(steps=tuple(steps)),
        Heading(text="The first days"),
        Rows(
            head=("day", "wear it at most", "red marks must be", "marks gone after", "checked by"),
            rows=(*rows, ("after that", "as your clinician says", f"gone after {MARKS_MIN} min", "", "")),
            shares=(1.2, 2.0, 2.0, 1.8, 1.8),
            written=True,
        ),
        Words(text="Go to the next day's time only if all marks went in time. If not, stop, and ask before you go on."),
        Words(text=SOURCE + PRACTICE + ".", tone="small"),
    ]


def asked_again(plan: Plan) -> list[Block]:
    """Return when somebody asks how it goes, when to measure again, and whom to ask."""
    whens = ("1 week", "1 month", "3 months", "6 months")
    told = [one for one in outgrown(plan.job, plan.measures) if one.known in ("small", "months", "grown")]
    spans = tuple(f"{outgrown_words(one)}." for one in told)
    small: list[Block] = [Heading(text="When it gets too small"), Ticks(steps=spans)] if spans else []
    return [
        Heading(text="We ask how it goes"),
        Rows(
            head=("after", "date", "by (role)", "how is it, is it worn, what changed"),
            rows=tuple((when, "", "", "") for when in whens),
            shares=(1.2, 1.6, 1.6, 4.4),
            written=True,
        ),
        *small,
        Heading(text="Whom to ask"),
        Rows(
            head=("about", "ask", "role and number"),
            rows=(
                ("skin, pain, fit, how long to wear it", "your prosthetist, therapist or doctor", ""),
                ("cracks, loose or lost pieces, size", "us, who made it; do not repair it yourself", ""),
                ("an injury, a swallowed piece", "the emergency number where you live", ""),
            ),
            shares=(3.0, 3.2, 2.6),
            written=True,
        ),
    ]


def _hours(minutes: int) -> str:
    """Return minutes as hours from an hour on.

    >>> _hours(30), _hours(60), _hours(240)
    ('30 min', '1 hour', '4 hours')
    """
    if minutes < 60:
        return f"{minutes} min"
    return f"{minutes // 60} hour{'s' if minutes > 60 else ''}"

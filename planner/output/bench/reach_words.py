"""Whether a driver reaches each screw and post: free, blocked, or not judged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from planner.assembly import Ways
from planner.output.paper_files.sheet import Block, Heading, Rows, Words
from planner.output.papers.assembly_order import ways_of_plan
from planner.output.tongue import ENGLISH, Tongue
from planner.plan import Plan


def reach_blocks(plan: Plan, turns: Mapping[str, tuple[int, str]], tongue: Tongue = ENGLISH) -> list[Block]:
    """Return the blocks; none where the job names no screw and no post.

    ``turns`` are the number of each hardware's step, and the parts that stand in its way then.
    """
    ways = sorted(
        (way for way in ways_of_plan(plan).values() if way.hardware in turns), key=lambda way: turns[way.hardware][0]
    )
    if not ways:
        return []
    names, say = [part.part.name for part in plan.parts], tongue.say
    rows = tuple(
        (str(number), tongue.kept(w.hardware), *_judged(w, names, barred, tongue))
        for w in ways
        for number, barred in [turns[w.hardware]]
    )
    head = (say("no."), say("screw or post"), say("straight access"), say("not checked against"))
    how = say(
        "Checked along the axis of the bores, {far} outward, as wide as the screw's head ({wide}). A through screw "
        "needs access at both ends; a screw into a pilot bore or a held nut needs one. Length checked: common "
        "practice, no source.",
        far=tongue.amount("100 mm"),
        wide=tongue.amount("1.5 d + 1 mm, ISO 4762"),
    )
    return [
        Heading(text=say("Reach of a driver")),
        Rows(head=head, rows=rows, shares=(0.6, 2.2, 3.9, 3.2), right=(0,)),
        Words(text=how, tone="small"),
    ]


def _judged(way: Ways, names: list[str], barred: str, tongue: Tongue) -> tuple[str, str]:
    """Return what is known about one access, and the parts whose place is not known."""
    say = tongue.say

    def told(parts: Iterable[str]) -> str:
        """Return names of parts as a list in words."""
        return tongue.listed(tongue.kept(part) for part in parts)

    if way.unknown:
        if tongue.code == "en":
            return f"not checked: {way.unknown}; try it before you fasten anything", "any part"
        return say("not checked; try it before you fasten anything") + tongue.in_english(way.unknown), say("any part")
    later = way.blocked_by(frozenset(names))
    if way.closed_n:
        phrase = say(
            "{n} of {count} blocked by the parts that it joins: see the drawing",
            n=str(way.closed_n),
            count=str(len(way.axes)),
        )
    elif barred:
        phrase = say("blocked by {parts}: see the note above the step that mounts it", parts=barred)
    elif later:
        phrase = say("free at its step; blocked later by {parts}", parts=told(sorted(later)))
    elif known := [name for name in names if name in way.known]:
        phrase = say("free, checked against {parts}", parts=told(known))
    else:
        phrase = say("free, checked against none")
    beyond = [name for name in names if name not in way.known]
    return phrase, told(beyond) if beyond else say("none")

"""Whether a driver reaches each screw and post: free, blocked, or not judged."""

from __future__ import annotations

from collections.abc import Mapping

from planner.assembly import Ways
from planner.output.paper_files.sheet import Block, Heading, Rows, Words
from planner.output.papers.assembly_order import ways_of_plan
from planner.output.words.paper_words import PRACTICE
from planner.phrases import listed
from planner.plan import Plan

HOW = (
    "Checked along the axis of the bores, 100 mm outward, as wide as the screw's head (1.5 d + 1 mm, ISO 4762). A "
    "through screw needs access at both ends; a screw into a pilot bore or a held nut needs one. Length checked: "
)


def reach_blocks(plan: Plan, turns: Mapping[str, tuple[int, str]]) -> list[Block]:
    """Return the blocks; none where the job names no screw and no post.

    ``turns`` are the number of each hardware's step, and the parts that stand in its way then.
    """
    ways = sorted(
        (way for way in ways_of_plan(plan).values() if way.hardware in turns), key=lambda way: turns[way.hardware][0]
    )
    if not ways:
        return []
    names = [part.part.name for part in plan.parts]
    blocks: list[Block] = [Heading(text="Reach of a driver")]
    rows = tuple((str(turns[w.hardware][0]), w.hardware, *_judged(w, names, turns[w.hardware][1])) for w in ways)
    head = ("no.", "screw or post", "straight access", "not checked against")
    blocks.append(Rows(head=head, rows=rows, shares=(0.6, 2.2, 3.9, 3.2), right=(0,)))
    blocks.append(Words(text=f"{HOW}{PRACTICE}.", tone="small"))
    return blocks


def _judged(way: Ways, names: list[str], barred: str) -> tuple[str, str]:
    """Return what is known about one access, and the parts whose place is not known."""
    if way.unknown:
        return f"not checked: {way.unknown}; try it before you fasten anything", "any part"
    later = way.blocked_by(frozenset(names))
    if way.closed_n:
        phrase = f"{way.closed_n} of {len(way.axes)} blocked by the parts that it joins: see the drawing"
    elif barred:
        phrase = f"blocked by {barred}: see the note above the step that mounts it"
    elif later:
        phrase = f"free at its step; blocked later by {listed(sorted(later))}"
    else:
        phrase = f"free, checked against {listed(name for name in names if name in way.known)}"
    beyond = [name for name in names if name not in way.known]
    return phrase, listed(beyond) if beyond else "none"

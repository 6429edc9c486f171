"""What is known of a driver's reach, said for every screw and post: free, in the way, or not judged."""

from __future__ import annotations

from collections.abc import Mapping

from planner.assembly import Ways
from planner.output.papers.assembly_order import ways_of_plan
from planner.output.press.sheet import Block, Heading, Rows, Words
from planner.output.words.paper_words import PRACTICE, listed
from planner.plan import Plan

HOW = (
    "Judged along the axis of the bores, 100 mm outward, as wide as the screw's head (1.5 d + 1 mm, ISO 4762). A screw "
    "that goes through needs both ends, one in a pilot or into a held nut needs one. Length of the way: "
)


def reach_blocks(plan: Plan, turns: Mapping[str, tuple[int, str]]) -> list[Block]:
    """Return the blocks; nothing where the job names no screw and no post.

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
    head = ("no.", "screw or post", "straight way", "reach not judged past")
    blocks.append(Rows(head=head, rows=rows, shares=(0.6, 2.2, 3.9, 3.2), right=(0,)))
    blocks.append(Words(text=f"{HOW}{PRACTICE}.", tone="small"))
    return blocks


def _judged(way: Ways, names: list[str], barred: str) -> tuple[str, str]:
    """Return what is known of a way that was judged, and the parts whose place is not known."""
    if way.unknown:
        return f"not judged: {way.unknown}; try it dry", "anything"
    later = way.blocked_by(frozenset(names))
    if way.closed_n:
        told = f"{way.closed_n} of {len(way.axes)} closed by the parts that it joins: look at the drawing"
    elif barred:
        told = f"{barred} in the way: see the line before it is mounted"
    elif later:
        told = f"free at its turn; later {listed(sorted(later))} in the way"
    else:
        told = f"free of {listed(name for name in names if name in way.known)}"
    beyond = [name for name in names if name not in way.known]
    return told, listed(beyond) if beyond else "nothing"

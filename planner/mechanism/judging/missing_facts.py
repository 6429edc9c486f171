"""What helps where a number of a mechanism is not known, by words of why it is not."""

from __future__ import annotations

PLACED = "draw the parts in place, or give them a [[place]]"
CURES = {
    "where nothing carries a force": "state the place where it touches the part, in mm as the part's mesh is drawn: a "
    "part that a [[place]] puts in place keeps the frame of its own mesh",
    "no way is drawn for it": "name the points where it comes out in its path, or draw the hole that it runs through",
    "passes the axis": "state with limits_deg how far the joint goes in use, or lead the cord farther from its axis",
    "cannot go round the pin": "in the path, name points along the outside of the part; or draw the part fully round "
    "about its bore, like a pulley",
    "overlap by": "draw them so that they do not overlap there, or give one of them a [[place]]",
    "does to that is not worked out": "begin its path on what stands, where it comes from the hand or the harness, and "
    "lead it through the axis of such a joint; else see on the bench what turns when it is drawn",
    "what its pins take": "hang the load on all its tips at once on the bench, before use",
    "the place of": "give it a [[place]]",
    "drawn angle between": "give one of them a [[place]]",
    "nothing else holds": "state in a [[joint]] what else it slides or turns on; if there is nothing else, write "
    'how = "slides", "turns" or "fixed" between the two',
    "slots run different ways": 'write how = "turns": each pin slides and turns in its slot',
    "so what turns there": f"{PLACED}; where slots cross, draw what slides in each as a part of its own, a block on "
    'the pin, with [[joint]] how = "slides"',
    "no round peg of one": f"{PLACED}; name the pin as [[hardware]], or draw its bores",
    "nor faces": f"{PLACED}; what guides a part has a face on either side of it, at most 1 mm away",
    "they share": 'state a [[joint]] for each axis between copies of their own, or how = "fixed"',
    "in a slot of": 'write a [[joint]] between them with how = "slides", "turns" or "fixed"',
}
"""The first whose words the reason has helps."""
ASKS = {"does to that is not worked out": "What turns on the bench when that cord is drawn?"}
"""The first whose words the reason has is asked."""
STATE = "state what is missing in the job file; fitwright move shows what is known"


def cure_of(why: str) -> str:
    """Return what helps where something is not known.

    >>> cure_of("arm to rod: the place of rod is not known")
    'give it a [[place]]'
    """
    return next((cure for words, cure in CURES.items() if words in why), STATE)


def ask_of(why: str) -> str:
    """Return what is asked where something is not known; empty where the reason asks enough."""
    return next((ask for words, ask in ASKS.items() if words in why), "")

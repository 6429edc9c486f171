"""Benches of packing: a first answer and many pieces, each beside a library that does part of the work."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace

from planner.packing import Item, Packing, pack, verify
from tests.packing.part_sets import BED, boxes, own_set

SPACING_MM = 4.0


def _once(work: Callable[[], object]) -> float:
    """Return the seconds of one run: a search takes the time that it is given."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def _row(name: str, items: list[Item], budget_s: float) -> dict[str, object]:
    """Time packing against rectpack on boxes; the size says what came of it."""
    found: list[Packing] = []

    def ours() -> None:
        found.append(pack(items, bed=BED, spacing_mm=SPACING_MM, seed=1, budget_s=budget_s))

    ours_s, peer_s = _once(ours), _once(lambda: boxes(items, SPACING_MM))
    plates = found[0].plates
    assert not verify(plates, items, bed=BED, spacing_mm=SPACING_MM)
    n = sum(item.copies for item in items)
    return {
        "name": name,
        "ours_s": ours_s,
        "peer": "rectpack on least boxes",
        "peer_s": peer_s,
        "ratio": peer_s / ours_s,
        "size": f"{n} pieces, {len(plates)} plates; boxes need {len(boxes(items, SPACING_MM))}",
    }


def pieces(n: int) -> list[Item]:
    """Return a number of pieces of our own sets."""
    items: list[Item] = []
    left, seed = n, 200
    while left:
        for item in own_set(seed):
            copies = min(item.copies, left)
            left -= copies
            items += [replace(item, part=f"{seed} {item.part}", copies=copies)] if copies else []
        seed += 1
    return items


def first_plates() -> dict[str, object]:
    """Time the first valid answer."""
    return _row("first plates", own_set(101), 0.0)


def many_plates() -> dict[str, object]:
    """Time 300 pieces with the budget that a plan gives them."""
    return _row("plates of 300 pieces", pieces(300), 30.0)


PLATE_BENCHES = {"first-plates": first_plates, "many-plates": many_plates}

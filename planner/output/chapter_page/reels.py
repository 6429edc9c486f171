"""Every spool of a chapter by its id: what is on it, which plates it feeds, and what they leave."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from planner.plan import Plan


def reels_json(plans: Mapping[str, Plan], ids: Mapping[str, Mapping[int, str]]) -> list[dict[str, Any]]:
    """Return a row for each spool with an id, in grams; ``after_g`` null where a plate takes from several."""
    rows: dict[str, dict[str, Any]] = {}
    for spool in (spool for plan in plans.values() for spool in plan.job.spools if spool.id):
        rows.setdefault(
            spool.id,
            {
                "spool": spool.id,
                "material": spool.material,
                "colour": spool.colour,
                "left_g": spool.left_g,
            },
        )
    fed: dict[str, list[_Fed]] = {name: [] for name in rows}
    for folder, plan in plans.items():
        for name, plate in _feeds(plan, folder, ids.get(folder, {})):
            fed.get(name, []).append(plate)
    return [_row(row, fed[name]) for name, row in rows.items()]


_Fed = tuple[str, str, float | None]
"""When a plate starts, as a text to sort by, what it is called, and the grams it takes; None where nobody knows."""


def _feeds(plan: Plan, folder: str, ids: Mapping[int, str]) -> Iterator[tuple[str, _Fed]]:
    """Yield the plates of a plan with each spool that feeds them."""
    starts = {run.plate: run.start.isoformat() if run.start else "9" for run in plan.runs}
    masses = {plate.number: plate.mass_g.value if plate.mass_g else None for plate in plan.plates}
    for feed in plan.clocks.feeds if plan.clocks else ():
        called = ids.get(feed.plate) or f"{plan.job.recipient or folder} plate {feed.plate}"
        grams = masses.get(feed.plate) if len(feed.reels) == 1 else None
        for reel in feed.reels:
            yield reel.name, (starts.get(feed.plate, "9"), called, grams)


def _row(row: dict[str, Any], fed: list[_Fed]) -> dict[str, Any]:
    """Return a spool's row with what it feeds, and what is left then."""
    grams = [each for _, _, each in fed]
    known = row["left_g"] is not None and None not in grams
    after_g = row["left_g"] - sum(each for each in grams if each is not None) if known else None
    return {**row, "after_g": after_g, "plates": [called for _, called, _ in sorted(fed, key=lambda each: each[:2])]}

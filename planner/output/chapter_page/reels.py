"""Every spool of a chapter by its id: what is on it, which plates it feeds, and what they leave."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from planner.plan import Plan


def reels_json(plans: Mapping[str, Plan], ids: Mapping[str, Mapping[int, str]]) -> list[dict[str, Any]]:
    """Return a row for each spool with an id, in grams; ``after_g`` null where a plate takes from several."""
    rows: dict[str, dict[str, Any]] = {}
    for plan in plans.values():
        for spool in plan.job.spools:
            if spool.id and spool.id not in rows:
                rows[spool.id] = {
                    "spool": spool.id,
                    "material": spool.material,
                    "colour": spool.colour,
                    "left_g": spool.left_g,
                    "after_g": spool.left_g,
                    "plates": [],
                }
    fed: dict[str, list[tuple[str, str]]] = {name: [] for name in rows}
    for folder, plan in plans.items():
        starts = {run.plate: run.start.isoformat() if run.start else "9" for run in plan.runs}
        masses = {plate.number: plate.mass_g for plate in plan.plates}
        for feed in plan.clocks.feeds if plan.clocks else ():
            called = ids.get(folder, {}).get(feed.plate) or f"{plan.job.recipient or folder} plate {feed.plate}"
            mass = masses.get(feed.plate)
            for reel in feed.reels:
                if reel.name not in rows:
                    continue
                fed[reel.name].append((starts.get(feed.plate, "9"), called))
                after = rows[reel.name]["after_g"]
                alone = len(feed.reels) == 1 and mass is not None and after is not None
                rows[reel.name]["after_g"] = after - mass.value if alone and mass is not None else None
    for name, plates in fed.items():
        rows[name]["plates"] = [called for _, called in sorted(plates)]
    return list(rows.values())

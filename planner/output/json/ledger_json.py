"""The ledger of a chapter: what every printer runs, what every kind of spool must give, what the print logs say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from pathlib import Path

from planner.calibrate import logged, read_log
from planner.job import Job
from planner.output.json.stock import stock_of
from planner.plan import Plan
from planner.supplies import grams_left

LOG = "print-log.csv"
Row = dict[str, object]


def ledger_json(plans: Mapping[str, Plan]) -> dict[str, list[Row]]:
    """Return rows of printers, spools and prints, by the plans' own files and the logs beside them."""
    return {"printers": _printers(plans), "spools": _spools(plans), "prints": _prints(plans)}


def log_beside(job: Job) -> Path:
    """Return where a job's print log lies."""
    return (job.path if job.path.is_dir() else job.path.parent) / LOG


def _printers(plans: Mapping[str, Plan]) -> list[Row]:
    """Return for every printer its plates, hours, and when it is free; plates without a time are counted apart."""
    plates_n, dateless_n = Counter[str](), Counter[str]()
    hours, until = dict[str, float](), dict[str, str]()
    for plan in plans.values():
        ends = {run.plate: run.end.isoformat() for run in plan.runs if run.end is not None}
        for plate in plan.plates:
            name = plate.printer or plan.job.printer.name
            plates_n[name] += 1
            dateless_n[name] += plate.number not in ends
            hours[name] = hours.get(name, 0.0) + plate.duration_s.value / 3600.0
            until[name] = max(until.get(name, ""), ends.get(plate.number, ""))
    return [
        {
            "printer": name,
            "plates": plates_n[name],
            "hours": hours[name],
            "until": until[name] or None,
            "without_time": dateless_n[name],
        }
        for name in sorted(plates_n)
    ]


def _spools(plans: Mapping[str, Plan]) -> list[Row]:
    """Return for every material and colour what all jobs need with the reserve, and what their spools have left.

    Where jobs may speak of the same spools, the fewest that there can be count, with a question where that decides.
    None of a spool's grams counts for two colours. What is left is null where a job does not say it.
    """
    need: dict[tuple[str, str], float] = {}
    reserve = 1.0
    for plan in plans.values():
        reserve = max(reserve, plan.job.limits.spool_reserve.value)
        for plate in plan.plates:
            if plate.mass_g is not None:
                key = plate.group.material, plate.group.colour
                need[key] = need.get(key, 0.0) + plate.mass_g.value
    spools = {name: plan.job.spools for name, plan in plans.items()}
    rows: list[Row] = []
    for (material, colour), grams in sorted(need.items()):
        stock = stock_of(spools, material)
        asked = {hue: reserve * each for (of, hue), each in sorted(need.items()) if of == material}
        known = any(spools.values()) and all(
            left is not None for hue, left in stock.least if colour == "any" or hue in (colour, "any")
        )
        left_g, most_g = (
            grams_left(asked, [(hue, left or 0.0) for hue, left in some])[colour] if known else None
            for some in (stock.least, stock.most)
        )
        short_g = None if left_g is None else max(0.0, grams * reserve - left_g)
        decides = bool(short_g) and most_g is not None and most_g >= grams * reserve
        rows.append(
            {
                "material": material,
                "colour": colour,
                "need_g": grams,
                "with_reserve_g": grams * reserve,
                "left_g": left_g,
                "short_g": short_g,
                "question": " ".join(stock.doubts) if decides else "",
            }
        )
    return rows


def _prints(plans: Mapping[str, Plan]) -> list[Row]:
    """Return what each print log beside a job says, each file once."""
    rows: list[Row] = []
    for path, plan in {log_beside(plan.job).resolve(): plan for plan in plans.values()}.items():
        prints = read_log(path) if path.is_file() else ()
        if not prints:
            continue
        said = logged(prints, plan.job.printer.failure_per_hour, path.name)
        rows.append(
            {
                "log": str(path),
                "plates": said.prints_n,
                "failed": said.failed_n,
                "hours": said.hours,
                "causes": dict(said.causes),
                "scrap_share": said.scrap_share.value if said.scrap_share else None,
            }
        )
    return rows

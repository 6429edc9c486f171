"""A plan in a terminal: the verdict, what ends it, what to do, what to print when."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.markup import escape
from rich.table import Table

from planner.finding import Verdict
from planner.output.terminal.chapter.limits_text import (
    buy_lines,
    change_lines,
    hands_table,
    late_lines,
    limit_lines,
    running_lines,
)
from planner.output.terminal.chapter.money_text import money_line
from planner.output.terminal.clocks_text import show_clocks
from planner.output.terminal.finding_list import WAIT, finding_list, waits
from planner.output.terminal.plates_text import mirrored_words, plates_table, rebored_words, unplaced
from planner.output.terminal.risk_text import show_risk
from planner.output.terminal.terminal import notes, verdict_line
from planner.output.words.date_words import way_words
from planner.output.words.paper_words import percent
from planner.output.words.size_words import reach_words
from planner.output.words.wording import grams, hours, money
from planner.phrases import capital, moment, plural
from planner.plan import Plan


def show_plan(console: Console, plan: Plan, report: Path, *, risk: bool = False) -> None:
    """Print one plan and where its report is; ``risk`` adds why each plate may fail."""
    console.print(verdict_line(plan.verdict, f"{plan.job.name} at {percent(plan.scale_percent)}"))
    for sentence in (unplaced(plan), mirrored_words(plan), rebored_words(plan.job, plan.scale_percent)):
        if sentence:
            console.print(sentence, markup=False)
    person = "" if plan.window.person is None else f"; that fit the person: {reach_words(plan.window.person)}"
    works = reach_words(plan.window.workable)
    console.print(f"{capital(plan.scale_from)}. Sizes at which the device works: {works}{person}.", markup=False)
    bad = [f for f in plan.remedies.shown(plan.findings, numbered=True) if f.verdict is not Verdict.GO]
    open_ones = [finding for finding in bad if waits(finding)]
    if len(bad) > len(open_ones):
        console.print(finding_list([f for f in bad if not waits(f)], "\nWhat decides, and what to do"))
    if open_ones:
        console.print(finding_list(open_ones, f"\n{WAIT}: these wait for answers (fitwright start --ask)"))
    notes(console, "Questions that could change the answer", [question.text for question in plan.questions])
    notes(console, "Guesses", [f"{guess.what}: {guess.value} ({guess.why})" for guess in plan.guesses])
    console.print(plates_table(plan))
    _sums(console, plan)
    if risk:
        show_risk(console, plan)
    show_clocks(console, plan)
    console.print(f"\nreport: {report}", markup=False, soft_wrap=True)


def _sums(console: Console, plan: Plan) -> None:
    """Print the totals."""
    totals, cost = plan.totals, plan.cost
    time = hours(totals.duration_s) if totals.duration_s else "no time"
    mass = grams(totals.mass_g.value) if totals.mass_g else f"mass withheld ({totals.withheld})"
    price = f", {money(cost.delivered.value, cost.currency)} delivered" if cost else ""
    console.print(f"\nAll plates: {time}, {mass} of {plan.material.name}{price}.", markup=False)


def show_chapter(console: Console, sums: dict[str, Any], folder: Path, plans: Mapping[str, Plan]) -> None:
    """Print the sums over several jobs, the ledger, and what would help jobs that are late."""
    console.print(verdict_line(Verdict(sums["verdict"]), f"chapter of {plural(len(sums['jobs']), 'job')}"))
    table = Table(title="\nWho and when", title_justify="left", box=None, padding=(0, 1, 0, 0))
    for title in ("job", "verdict", "scale", "plates", "hours", "mass", "ready", "due"):
        words = title in ("job", "verdict", "ready", "due")
        table.add_column(title, justify="left" if words else "right", overflow="fold")
    for job in sums["jobs"]:
        table.add_row(
            escape(job["recipient"] or job["job"]),
            job["verdict"],
            f"{job['scale_percent']:g} %",
            str(job["plates"]),
            f"{job['duration_s'] / 3600:.1f} h" if job["duration_s"] else "-",
            (f"{job['mass_g']:.0f} g" if job["mass_g"] else "withheld") if job["plates"] else "-",
            _day(job["ready"]) or "-",
            job["deadline"] or "-",
        )
    console.print(table)
    notes(console, "Not planned", [f"HOLD {row['path']}: {row['why']}" for row in sums["unread"]])
    notes(console, "Late", late_lines(sums))
    notes(console, "What limits this chapter, and what one more would buy", limit_lines(sums))
    notes(console, "Changed since the last plan", change_lines(sums))
    for row in sums["filament"]:
        spools = plural(row["spools"], "spool")
        console.print(f"{row['material']}, {row['colour']}: {row['mass_g']:.0f} g, {spools} of 1 kg", markup=False)
    notes(console, "Ledger", ledger_lines(sums))
    notes(console, "Running", running_lines(sums))
    if sums["schedule"]:
        console.print(_common(sums))
    if sums["hands"]:
        console.print(hands_table(sums))
    notes(console, "To buy", buy_lines(sums))
    notes(console, "Notes on the calendar", [sums["schedule_note"]] if sums["schedule_note"] else [])
    for name, plan in plans.items():
        if plan.clocks is not None:
            notes(console, f"What would help {escape(name)}, soonest first", [way_words(w) for w in plan.clocks.ways])
    totals = sums["totals"]
    cost = ", ".join(f"{value:.2f} {currency}" for currency, value in totals["cost_delivered"].items())
    console.print(
        f"All: {totals['plates']} plates, {totals['hours']:.1f} h, {totals['mass_g']:.0f} g, {cost} delivered"
    )
    console.print(money_line(sums), markup=False)
    console.print(f"plans: {folder}", markup=False, soft_wrap=True)


def ledger_lines(sums: dict[str, Any]) -> list[str]:
    """Return a chapter's ledger in sentences: printers, spools, prints."""
    lines = []
    for row in sums["printers"]:
        until = f", until {_day(row['until'])}" if row["until"] else ""
        no_time = f", {row['without_time']} not on the calendar" if row["without_time"] and sums["schedule"] else ""
        plates = plural(row["plates"], "plate")
        lines.append(f"{row['printer']}: {plates}, {row['hours']:.1f} h{until}{no_time}")
    for row in sums["spools"]:
        what = f"{row['material']} {row['colour']}: {row['need_g']:.0f} g, with reserve {row['with_reserve_g']:.0f} g"
        left = "nobody says how much is left" if row["left_g"] is None else f"{row['left_g']:.0f} g left"
        short = f": HOLD, buy {row['short_g']:.0f} g more before the last of these plates" if row["short_g"] else ""
        lines.append(f"{what}; {left}{short}{'. ' if row['question'] else ''}{row['question']}")
    for row in sums["prints"]:
        failed = f"{row['failed']} of {row['plates']} plates failed in {row['hours']:.1f} h"
        scrap = "" if row["scrap_share"] is None else f", {100 * row['scrap_share']:.0f} % of pieces printed again"
        lines.append(f"{row['log']}: {failed}{scrap}")
    return lines


def _common(sums: dict[str, Any]) -> Table:
    """Return the plates of all jobs in the order in which they start."""
    table = Table(title="\nWhat to print when", title_justify="left", box=None, padding=(0, 1, 0, 0))
    for title in ("start", "end", "printer", "job", "plate"):
        table.add_column(title, justify="right" if title == "plate" else "left", overflow="fold")
    for coupon in sums["coupons"]:
        start = _day(coupon["start"]) or "no time"
        table.add_row(start, "", escape(coupon["printer"]), f"coupon of {escape(coupon['material'])}", "")
    for run in sums["schedule"]:
        start = _day(run["start"]) or escape(run["reason"])
        table.add_row(
            start, _day(run["end"]), escape(run["printer"]), escape(run["job"]), run["id"] or str(run["plate"])
        )
    return table


def _day(when: str | None) -> str:
    """Return a moment as people write it; empty for none."""
    return moment(datetime.fromisoformat(when)) if when else ""

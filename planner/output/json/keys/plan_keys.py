"""What ``plan.json`` holds, table by table: the reference that ``fitwright keys plan.json`` prints.

A test compares it with real plans: every key that they have stands here, and no other.
"""

from __future__ import annotations

from planner.job import Key, KeyTable, unit_of
from planner.output.json.keys.check_keys import CHECK
from planner.output.json.keys.date_keys import DATES
from planner.output.json.keys.key_rows import Tables
from planner.output.json.keys.thing_keys import THINGS

FINDING = "{finding}"
PLAN: Tables = {
    "": (
        "The whole plan. Where something could not be computed there is null, with the reason beside it.",
        {
            "schema": ("text", "fitwright/plan/1."),
            "job": ("text", "The job's name."),
            "verdict": ("text", "go, go-with-work, hold or no-go: that of the worst finding."),
            "scale_percent": ("number", "The size that was planned, in percent of the drawn one."),
            "scale_from": ("text", "What decided the scale."),
            "checked_n": ("whole number", "Features that a rule could check."),
            "features_n": ("whole number", "Features found."),
            "guesses": ("list of {guess}", "Values that nobody stated."),
            "headline": ("{headline}", "What ends it, what hangs on answers, and how much is fine."),
            "questions": ("list of {question}", "What to answer or measure next, that which settles most first."),
            "window": ("{window}", "The sizes that work."),
            "measures": ("list of {measure}", "What each measure of the recipient asks for."),
            "outgrown": ("{outgrown} or null", "The size after this one; null: nothing tells that it is outgrown."),
            "plates": ("list of {plate}", "Every plate, in the order of printing."),
            "totals": ("{totals}", "Sums over all plates."),
            "cost_lines": ("list of {cost_line}", "What the cost is made of."),
            "worn_g": ("number or null", "Mass of the device as worn, padding and hardware with it."),
            "material": ("{material}", "The material, and why."),
            "schedule": ("list of {run}", "When each plate starts and ends; empty without [plan] start."),
            "schedule_note": ("text", "Why the schedule is empty, where it is."),
            "coupon": ("{coupon} or null", "The coupon that is printed and measured first, where one is."),
            "parted_why": ("text", "Why plates were split for the dates, where they were."),
            "clocks": ("{clocks} or null", "Printing, hands-on and calendar time; null without a calendar."),
            "hardware": ("list of {hardware}", "What to bag."),
            "cuts": ("list of {cut}", "What to cut."),
            "cautions": ("list of {caution}", "What to mind; no verdict hangs on it."),
            "parts": ("list of {part}", "Every part at its size."),
            "remedies": (
                "list of {remedy}",
                "What settles findings; each was made and judged again, on layers where they tell.",
            ),
            "findings": (f"list of {FINDING}", "What the rules found, the worst first."),
        },
    ),
    "remedy": (
        "Edits of the job that settle some findings and make no other worse.",
        {
            "n": ("whole number", "Its number: fitwright check JOB --do N writes it into the job."),
            "kind": (
                "text",
                (
                    "drill, ream, bush, hardware, webbing, rebore, pose, settings, material, printer, nozzle, size, "
                    "split or needs."
                ),
            ),
            "text": ("text", "What to do."),
            "part": ("text", "The part; empty for the whole device."),
            "does": ("{does}", "The same as edits of the job file."),
            "costs": ("{costs}", "What it takes."),
            "leaves_verdict": ("text", "What check says with this remedy alone."),
            "refused": ("list of {refused}", "Nearer ways that do not work."),
            "settles": ("list of {settled}", "The findings that pass with it."),
        },
    ),
    "does": ("Edits of the job file.", {"edits": ("list of {edit}", "One change of one table each.")}),
    "edit": (
        "One change of one table of the job file.",
        {
            "table": ("text", "The table, such as hardware."),
            "name": ("text", "Which of several; empty where there is one."),
            "put": ("map", "Keys with their new values."),
            "without": ("list of texts", "Keys that are taken out."),
            "drop": ("true, false", "Whether the whole table is taken out."),
        },
    ),
    "costs": (
        "What a remedy takes.",
        {
            "minutes": ("number", "Work by hand, all copies together."),
            "money": ("number or null", "Price of what is bought for it, in the job's currency; null where unknown."),
        },
    ),
    "refused": ("A way that does not work.", {"text": ("text", "What it would be."), "why": ("text", "Why not.")}),
    "settled": (
        "A finding that a remedy settles.",
        {
            "rule": ("text", "Its rule."),
            "part": ("text", "Its part."),
            "feature": ("text", "Its feature."),
        },
    ),
    "finding": (
        "One rule's answer about one feature.",
        {
            "rule": ("text", "The rule, such as wall.thin."),
            "part": ("text", "The part; empty for the whole job."),
            "verdict": ("text", "The verdict of this rule alone."),
            "why": ("text", "One sentence with the numbers."),
            "feature": ("text", "What in the part; empty for the part itself."),
            "measured": ("number or null", "What was measured, at scale, in the finding's unit."),
            "limit": ("number or null", "What it was compared with, in the same unit."),
            "unit": ("text", "Unit of both."),
            "at_mm": ("[x, y, z] or null", "Where, in the drawn mesh."),
            "remedy": ("text", "What to do about it."),
            "source": ("text", "Where the limit comes from."),
            "caution": ("text", "A caution that does not change the verdict."),
            "question": ("text", "The one answer that would decide."),
            "evidence": (
                "text",
                "stated, measured, usual or guessed: the weakest input whose range would change the verdict.",
            ),
            "question_id": ("text", "The question whose answer decides, where the evidence is guessed; else empty."),
            "extent": ("{extent} or null", "How far a thin wall reaches below its limit; null where it is not thin."),
            "work": ("{work} or null", "The remedy of a go-with-work on an opening, as data."),
            "refused": ("list of {refused}", "What was tried where no remedy was found; empty for all others."),
        },
    ),
    "work": (
        "What a person does so that a finding passes.",
        {
            "kind": ("text", "drill, ream, bush, stock (another stock size) or webbing (narrower)."),
            "hardware": ("text", "The hardware, cord or strap whose opening it is."),
            "to_mm": ("number or null", "The opening after drilling or reaming."),
            "takes": ("text", "What is taken instead."),
            "takes_mm": ("number or null", "Its diameter or width."),
            "outside_mm": ("number or null", "Outside of a bush."),
            "bored_mm": ("number or null", "The bore in it."),
        },
    ),
    "headline": (
        "The three things that a verdict is made of.",
        {
            "ends": ("list of texts", "What stops it whatever is answered."),
            "hangs_on": ("list of texts", "Questions and open points that decide."),
            "fine_n": ("whole number", "Features that were checked and pass as they are."),
            "open_n": ("whole number", "Findings that wait for an answer or a measurement."),
        },
    ),
    "question": (
        "A question whose answer decides.",
        {
            "id": ("text", "Its name in an answer file."),
            "text": ("text", "The question."),
            "options": ("list of {option}", "The answers; empty where a number or words are asked for."),
            "default": ("text", "The answer that is taken where nobody gives one; empty without answers."),
            "settles_n": ("whole number", "How many findings its answer settles."),
            "features": ("list", "Part and feature of each of them."),
        },
    ),
    "option": (
        "One answer.",
        {
            "name": ("text", "What an answer file says."),
            "text": ("text", 'What it means, as a clause after "if".'),
            "share": ("number", "How likely it is by name and form, 0 to 1; null where nothing tells."),
        },
    ),
    "extent": (
        "How far a place reaches, at scale.",
        {
            "area_mm2": ("number", "Area of its surface, both sides together."),
            "length_mm": ("number", "Its length along its longest direction."),
        },
    ),
    "guess": (
        "A value that nobody stated.",
        {
            "what": ("text", "What was guessed."),
            "value": ("text", "What it was taken to be."),
            "why": ("text", "Why."),
        },
    ),
    "window": (
        "The sizes that work, for the device and for each part.",
        {
            "schema": ("text", "fitwright/window/1."),
            "scale_percent": ("number", "The size that was asked about."),
            "go": ("{reach}", "Where every rule gives go."),
            "workable": ("{reach}", "Where the device works once the listed work is done."),
            "person": ("{reach} or null", "Where it fits the person's measures; null: nothing was measured."),
            "nearest_percent": ("{nearest}", "The nearest sizes that work."),
            "parts": ("list of {part_window}", "The same for each part."),
            "limits": ("list", "Empty here; the command window fills it."),
            "widenings": ("list of {widening}", "Changes that would widen it, the best first."),
        },
    ),
    "reach": (
        "A set of sizes; the ends are those of the interval that holds the job's scale or lies nearest.",
        {
            "low_percent": ("number or null", "Its low end; null: nothing bounds it."),
            "high_percent": ("number or null", "Its high end; null: nothing bounds it."),
            "low_cause": (f"{FINDING} or null", "What ends it below."),
            "high_cause": (f"{FINDING} or null", "What ends it above."),
            "empty": ("true, false", "Whether no size is left."),
            "intervals": ("list of {interval}", "All of its intervals."),
            "causes": (f"list of {FINDING}", "Why no size is left."),
            "until": (
                f"list of {FINDING}",
                "Where only holds stand against it: what must be answered.",
            ),
            "if_answered": ("list of {interval}", "The intervals once they are."),
        },
    ),
    "interval": (
        "One interval of sizes.",
        {
            "low_percent": ("number or null", "Its low end."),
            "high_percent": ("number or null", "Its high end."),
            "low_cause": (f"{FINDING} or null", "What ends it below."),
            "high_cause": (f"{FINDING} or null", "What ends it above."),
        },
    ),
    "nearest": (
        "The sizes nearest to the one that was asked about.",
        {
            "go": ("number or null", "Nearest with nothing to do, in percent."),
            "workable": ("number or null", "Nearest that works after the listed work, in percent."),
            "passes": ("number or null", "Nearest that works and fits the person, in percent."),
        },
    ),
    "part_window": (
        "The sizes at which one part works.",
        {
            "part": ("text", "The part."),
            "name": ("text", "The same."),
            "go": ("{reach}", "Where every rule gives go."),
            "workable": ("{reach}", "Where it works once the listed work is done."),
            "person": ("{reach} or null", "Where it fits the person: null unless a measure is taken on this part."),
        },
    ),
    "widening": (
        "A change that would widen the sizes that work.",
        {
            "what": ("text", "The change."),
            "gain_percent": ("number", "By how much it widens them."),
            "reaches": ("true, false", "Whether the job's own scale then works."),
            "proved": ("true, false", "Whether its sizes are proved; window --prove tries a re-boring on its parts."),
            "workable": ("{ends}", "The sizes that would work."),
        },
    ),
    "ends": (
        "Two ends.",
        {
            "low_percent": ("number or null", "The low end."),
            "high_percent": ("number or null", "The high end."),
        },
    ),
    "measure": (
        "What one measure of the recipient asks for.",
        {
            "name": ("text", "The measure."),
            "percent": ("number", "The scale that it asks for."),
            "device_mm": ("number", "The device's own measure at 100 %."),
            "spare_mm": ("number", "Room to grow at the planned size."),
            "governs": ("true, false", "Whether it decided the scale."),
        },
    ),
    **THINGS,
    **DATES,
}


def plan_tables() -> tuple[KeyTable, ...]:
    """Return the reference of ``plan.json``, and of what ``check`` writes."""
    return (*_tables("plan.json", PLAN), *_tables("check.json", CHECK))


def _tables(file: str, tables: Tables) -> tuple[KeyTable, ...]:
    """Return the reference of one file."""
    return tuple(
        KeyTable(
            name=f"{file}.{name}" if name else file,
            heading=f"{{{name}}}" if name else "(top level)",
            file=file,
            about=about,
            keys=tuple(
                Key(name=key, takes=takes, unit=_unit(key, takes), default="", meaning=meaning)
                for key, (takes, meaning) in keys.items()
            ),
        )
        for name, (about, keys) in tables.items()
    )


def _unit(key: str, takes: str) -> str:
    """Return the unit of a key that holds numbers; counts and words have none."""
    return unit_of(key) if any(word in takes for word in ("number", "[x", "{amount}")) and "whole" not in takes else ""

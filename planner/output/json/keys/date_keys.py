"""The part of the reference of ``plan.json`` that speaks of risk and dates."""

from __future__ import annotations

from planner.output.json.keys.key_rows import Tables

DATES: Tables = {
    "run": (
        "When one plate is printed.",
        {
            "plate": ("whole number", "Its number."),
            "printer": ("text", "The printer."),
            "start": ("time or null", "When it starts."),
            "end": ("time or null", "When it ends."),
            "reason": ("text", "Why it has no time, where it has none."),
        },
    ),
    "risk": (
        "How likely a plate fails, and what that costs.",
        {
            "failure_percent": ("number", "Chance that it fails."),
            "expected_s": ("number or null", "Mean time until it has succeeded, repeats with it; null: never."),
            "expected_lost_g": ("number or null", "Mean mass lost to failures."),
            "per_hour": ("number", "Failure rate of its pieces, per hour of printing."),
            "per_hour_ratio": ("list of numbers or null", "Low, middle and high ratio to the common rate, from a log."),
            "why": ("text", "Why it may fail."),
            "formula": ("text", "How the expected time was computed."),
        },
    ),
    "split": (
        "Whether several smaller plates would be better than the whole one.",
        {
            "pays": ("true, false", "Whether a split pays."),
            "needed": ("true, false", "Whether the whole plate is too long for any time."),
            "saved_s": ("number or null", "Expected time saved by the best split."),
            "plates": ("list of maps of numbers", "Its plates: pieces by part."),
            "curve": ("list of {curve_point}", "What each number of plates costs."),
        },
    ),
    "curve_point": (
        "What one number of plates costs.",
        {
            "plates": ("whole number", "How many plates."),
            "most_pieces": ("whole number", "Pieces on the fullest of them."),
            "expected_s": ("number or null", "Mean time until all have succeeded."),
            "lost_g": ("number or null", "Mean mass lost to failures."),
            "changes": ("whole number", "Plate changes."),
            "exact": ("true, false", "Whether it is the best there is, not only the best found."),
        },
    ),
    "coupon": (
        "The coupon that is printed and measured before the plates.",
        {
            "why": ("text", "Why it comes first."),
            "printer": ("text", "The printer."),
            "material": ("text", "Its material."),
            "duration_s": ("number", "Printing time."),
            "mass_g": ("number", "Filament."),
            "start": ("time or null", "When it starts."),
            "end": ("time or null", "When it is printed."),
            "measured": ("time or null", "When its readings are written down."),
            "mesh": ("text", "Its file."),
            "readings": ("text", "The form for its readings."),
        },
    ),
    "clocks": (
        "Three clocks: printing, hands-on, and the calendar.",
        {
            "printing_s": ("number", "Printing time of all plates."),
            "hands_on_min": ("whole number", "Work by hand."),
            "start": ("time", "When the calendar begins."),
            "printed": ("time or null", "When the last plate is done if none fails."),
            "printed_expected": ("time or null", "The mean, failures counted in."),
            "printed_p90": ("time or null", "Kept in 90 % of simulated runs."),
            "ready": ("time or null", "When the device is ready if no plate fails."),
            "ready_p90": ("time or null", "Kept in 90 % of simulated runs."),
            "ready_expected": ("time or null", "The mean, failures counted in."),
            "deadline_kept_percent": ("number or null", "Share of simulated runs that keep the deadline."),
            "plays": ("whole number", "How many runs were simulated."),
            "tonight": ("text", "What to start first, and until when it runs."),
            "overrun_percent": (
                "map of numbers",
                "By plate: share of runs in which its first attempt outlasts the time that somebody is there.",
            ),
            "bound_min": ("whole number", "No calendar can be done earlier, counted from its start."),
            "gap_percent": ("number", "How far this calendar may be from the best."),
            "steps": ("list of {step}", "The work by hand, in its order."),
            "ways_out": ("list of {way}", "What would help where it is late, the best first."),
            "spools": ("list of {feed}", "Which spool feeds which plate."),
            "printers": ("list of texts", "Printers that take no plate, and why."),
            "notes": ("list of texts", "What else is to be known about the dates."),
        },
    ),
    "step": (
        "One step of the work by hand.",
        {
            "name": ("text", "What is done."),
            "minutes": ("whole number", "How long it takes."),
            "wait_min": ("whole number", "How long it must rest after it."),
            "start": ("time or null", "When it starts."),
            "end": ("time or null", "When it ends."),
            "slack_min": ("whole number", "How late it may be without moving the end."),
            "why": ("text", "What it is for."),
        },
    ),
    "way": (
        "A way out where the plan is late.",
        {
            "what": ("text", "The change."),
            "ready": ("time or null", "When the device would be ready."),
            "late_days": ("number or null", "Days after the deadline."),
            "without_time": ("whole number", "Plates that would have no time."),
            "costs": ("text", "What it costs."),
            "solved": ("true, false", "Whether its calendar was solved, not only estimated."),
        },
    ),
    "feed": (
        "Which spools feed one plate.",
        {
            "plate": ("whole number", "The plate."),
            "feeds": ("list of {reel}", "Its spools, in their order."),
            "ends_after_s": ("list of numbers", "When a spool ends, counted from the plate's start."),
            "be_there": ("list of times", "When somebody must be there to change it."),
            "unattended": ("true, false", "Whether a spool ends while nobody is there."),
            "short_g": ("number", "What is missing."),
        },
    ),
    "reel": (
        "A spool that feeds a plate.",
        {
            "spool": ("text", "The spool."),
            "colour": ("text", "Its colour."),
            "left_g": ("number or null", "What is left on it before."),
        },
    ),
    "outgrown": (
        "When room to grow is used up by published growth, and the step that follows. Never a judgement of a limb.",
        {
            "outgrown": ("list of {grown}", "What each measure says, the soonest first."),
            "percent": ("number", "The size that gives the soonest measure its room again."),
            "works": ("true, false", "Whether size and fit allow it."),
            "nearest_percent": ("number or null", "The nearest size that works."),
            "kept": ("list of texts", "What serves again: parts at a size of their own, hardware and cuts."),
            "anew": ("list of texts", "What is printed or bought anew."),
            "mass_g": ("{amount} or null", "Filament of the step."),
            "cost": ("{amount} or null", "Filament, energy and what is bought anew, failures counted in."),
        },
    ),
    "grown": (
        "How long one measure leaves room.",
        {
            "measure": ("text", "The measure."),
            "known": ("text", "months: a span; grown: growing has ended; age, table or small: what is missing."),
            "room_mm": ("number", "How much more the recipient may measure."),
            "next_percent": ("number", "The size that gives it its room again."),
            "earliest_months": ("number or null", "The early end, from the day that it was measured."),
            "latest_months": ("number or null", "The late end; null: the tables end before."),
            "measured": ("text", "The day that it was measured; empty: not stated."),
            "source": ("text", "The tables of growth."),
        },
    ),
}

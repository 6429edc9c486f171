"""The command ``fitwright``: its commands by name, each in a file of its own.

A command imports its rooms only when it runs, so that ``--help`` answers at once.
"""

from __future__ import annotations

from collections.abc import Callable

import typer

from planner.cli.fit.card_command import card
from planner.cli.fit.check_command import check
from planner.cli.fit.inspect_command import inspect
from planner.cli.fit.keys_command import keys
from planner.cli.fit.move_command import move
from planner.cli.fit.photo_command import photo
from planner.cli.fit.rebore_command import rebore
from planner.cli.fit.rules_command import rules
from planner.cli.fit.start_command import start
from planner.cli.fit.strength_command import strength
from planner.cli.fit.window_command import window
from planner.cli.ledger.device.device_command import device
from planner.cli.ledger.event_commands import bought, done, failed, fitted, forget, handed, note, started, weighed
from planner.cli.ledger.ledger_command import ledger
from planner.cli.ledger.machine_events import blocked, measured, nozzle, retired
from planner.cli.machine.audit_command import audit
from planner.cli.machine.cache_command import cache
from planner.cli.machine.calibrate_command import calibrate
from planner.cli.machine.coupon_command import coupon
from planner.cli.machine.learn_command import learn
from planner.cli.machine.settings_command import settings
from planner.cli.plan.chapter_command import chapter
from planner.cli.plan.demo_command import demo
from planner.cli.plan.desk_command import desk
from planner.cli.plan.pattern_command import pattern
from planner.cli.plan.plan_command import plan
from planner.cli.plan.release_command import release

app = typer.Typer(
    name="fitwright",
    help="Plans and checks a many-part printed device at the size that fits one person.",
    epilog="Exit codes: 0 go or go-with-work; 1 hold or no-go; 2 the command or a file is wrong. "
    "This program checks shape and plan only; it does not judge a body, strength in use or anything medical.",
    rich_markup_mode=None,  # plain help: the rich one takes a quarter of a second to load
    pretty_exceptions_enable=False,
)
COMMANDS: dict[Callable[..., None], str] = {
    demo: "Copy the sample device, plan it, and show where the report is.",
    start: "Write a commented job.toml for a folder of meshes.",
    card: "Write the card that photos measure by.",
    photo: "Measure a limb in a photo with the card.",
    inspect: "Measure mesh files.",
    check: "Check whether every part and joint works at this size.",
    window: "Show which sizes work, what limits them, what would help.",
    move: "Show how far the joints go, and how hard one must pull.",
    strength: "Show where loaded parts are weakest: a screening.",
    pattern: "Write padding patterns and bucks from the side on the skin.",
    rebore: "Write the parts at size, with bores that fit the hardware.",
    rules: "Print the rules: limits, sources, remedies.",
    settings: "Check the print settings against printer and parts.",
    coupon: "Write the coupon (a test piece) and a form for its readings.",
    calibrate: "Compute a printer's own offsets from coupon readings.",
    learn: "Copy the settings of a G-code program into the job.",
    audit: "Compare what a G-code program does with the plan.",
    plan: "Plan everything: plates, hours, material, cost, report.",
    chapter: "Plan all jobs of a chapter together, with totals.",
    ledger: "Make, back up, carry or ask a chapter's ledger.",
    started: "Tell the ledger that a plate runs.",
    done: "Tell the ledger that a plate is printed.",
    failed: "Tell the ledger that a plate failed.",
    nozzle: "Tell the ledger which nozzle is in a printer.",
    measured: "Tell the ledger that a printer's coupon was measured.",
    blocked: "Tell the ledger that a printer waits for its coupon.",
    retired: "Tell the ledger that a spool is retired.",
    weighed: "Tell the ledger what is left on a spool.",
    bought: "Tell the ledger what was bought.",
    device: "Tell the ledger of a test, spoilt pieces, a complaint …",
    fitted: "Tell the ledger that a device was fitted.",
    handed: "Tell the ledger that a device was handed over.",
    note: "Keep a note about a job in the ledger.",
    forget: "Redact a recipient everywhere in the ledger.",
    release: "Release the hand-over sheet, or list what is missing.",
    keys: "Print every key of job.toml, plan.json and profiles.",
    cache: "Show or delete what is kept from run to run.",
    desk: "Work in a page in the browser, on this computer only.",
}
for command, about in COMMANDS.items():
    below_zero = {"ignore_unknown_options": True} if command is bought else None  # bought ITEM -3
    app.command(short_help=about, context_settings=below_zero)(command)

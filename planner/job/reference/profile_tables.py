"""The tables of profiles: printers, materials, settings, limits, and those that are only shipped."""

from __future__ import annotations

from planner.job.body_motion import BodyMotion
from planner.job.pose_weights import PoseWeights
from planner.job.profiles.body_sizes import BodySize
from planner.job.profiles.environments import Environment
from planner.job.profiles.failure_rules import FailureRule
from planner.job.profiles.hands_on import HandsOn
from planner.job.profiles.limits import Limits
from planner.job.profiles.material import Material
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Bed, Calibration, GoesOn, Printer, Undersize
from planner.job.profiles.rule_kind import RuleKind, rule_kinds
from planner.job.profiles.stock_sizes import StockSize
from planner.job.reference.key import Key, KeyTable
from planner.job.reference.key_unit import unit_of
from planner.job.reference.record_keys import keys_of
from planner.sourced import Sourced

ABOUT = Key(name="about", takes="text", unit="", default="", meaning="What it is, in words.")
INNER = ("bed", "undersize", "calibrated_for", "goes_on", "fails_by")
"""Tables in a printer's profile."""
DIAMETER = Key(name="diameter_mm", takes="number", unit="mm", default="", meaning="Of a circle, instead of size_mm.")


def profile_tables() -> tuple[KeyTable, ...]:
    """Return every table of the profiles."""
    return (
        _number(),
        *_printer(),
        *_material(),
        _own("settings-profile", "settings", "Print settings.", (ABOUT, *keys_of(Settings, without=("name",)))),
        *_limits(),
        KeyTable(
            name="environments",
            heading="[NAME]",
            file="profiles/environments.toml",
            about="A place where a device is kept.",
            keys=keys_of(Environment, without=("name",)),
        ),
        KeyTable(
            name="hands_on",
            heading="(top level)",
            file="profiles/hands_on.toml",
            about="Minutes of work after printing, for one of each.",
            keys=keys_of(HandsOn),
        ),
        KeyTable(
            name="pose",
            heading="(top level)",
            file="profiles/pose.toml",
            about="What is weighed where a pose is chosen, in minutes of printing.",
            keys=keys_of(PoseWeights),
        ),
        KeyTable(
            name="failures",
            heading="[CAUSE]",
            file="profiles/failures.toml",
            about="What to do when a plate goes wrong, by what is seen.",
            keys=keys_of(FailureRule, without=("cause",)),
        ),
        KeyTable(
            name="stock",
            heading="[[size]]",
            file="profiles/hardware/KIND.toml",
            about="A stock size of one kind of hardware; its numbers share the file's source.",
            keys=keys_of(StockSize, without=("lengths_mm",), defaults={"bores_mm": ""}),
        ),
        KeyTable(
            name="body",
            heading="[NAME]",
            file="profiles/body.toml",
            about="Published body sizes, only to catch a slip of the unit.",
            keys=keys_of(BodySize, without=("name",)),
        ),
        KeyTable(
            name="motion",
            heading="[JOINT]",
            file="profiles/motion.toml",
            about="Published ranges of motion, only to catch a slip in [drive] range_deg.",
            keys=keys_of(BodyMotion, without=("name",)),
        ),
    )


def _own(name: str, folder: str, about: str, keys: tuple[Key, ...], heading: str = "(top level)") -> KeyTable:
    """Return a table of a profile that a user may write too."""
    return KeyTable(name=name, heading=heading, file=f"profiles/{folder}/NAME.toml", about=about, keys=keys)


def _number() -> KeyTable:
    """Return how a number of a profile may be written."""
    return KeyTable(
        name="number",
        heading="{ value, low, high, kind, source }",
        file="profiles",
        about="A number with its range and origin; in a file of your own a plain number does.",
        keys=keys_of(Sourced, defaults={"low": "value", "high": "value", "kind": "job", "source": "the file's name"}),
    )


def _printer() -> tuple[KeyTable, ...]:
    """Return the tables of a printer's profile."""
    power = {"heating_w": "power_w.heating", "printing_w": "power_w.printing"}
    either = {"corner_deviation_mm": "or corner_speed_mm_s", "corner_speed_mm_s": "or corner_deviation_mm"}
    head = keys_of(Printer, without=("name", *INNER), named=power, defaults={**either, "about": ""})
    ratio = Key(
        name="PART or DUTY",
        takes="number",
        unit="",
        default="1",
        meaning="How many times as often as failure_per_hour says plates of it fail, from the print log.",
    )
    return (
        _own("printer", "printers", "A printer.", head),
        _own("printer.bed", "printers", "The build surface.", (*_bed(), DIAMETER), "[bed]"),
        _own(
            "printer.undersize",
            "printers",
            "By how much a bore prints smaller than its mesh, on its diameter; NAME_low_mm and NAME_high_mm may give "
            "the range.",
            keys_of(Undersize),
            "[undersize]",
        ),
        _own(
            "printer.calibrated_for",
            "printers",
            "What its offsets were measured with.",
            keys_of(Calibration),
            "[calibrated_for]",
        ),
        _own("printer.goes_on", "printers", "A printer that continues where it stopped.", keys_of(GoesOn), "[goes_on]"),
        _own("printer.fails_by", "printers", "What fails more or less often than the rest.", (ratio,), "[fails_by]"),
    )


def _bed() -> tuple[Key, ...]:
    """Return the keys of a bed that stand in its record."""
    return keys_of(Bed, defaults={"size_mm": "by shape"})


def _material() -> tuple[KeyTable, ...]:
    """Return the tables of a material's profile."""
    strength = {
        "strength_along_mpa": "strength_mpa.along",
        "strength_across_layers_mpa": "strength_mpa.across_layers",
    }
    derived = {
        "about": "",
        "service_c": "softens_c less 20",
        "shear_mpa": "0.8 of strength_mpa.across_layers",
        "modulus_across_mpa": "0.85 of modulus_along_mpa",
    }
    keys = keys_of(Material, without=("name",), named=strength, defaults=derived)
    return (_own("material", "materials", "A filament material.", keys),)


def _limits() -> tuple[KeyTable, ...]:
    """Return the limits of the rules; what a user's own file leaves out is the shipped standard's."""
    standard = dict.fromkeys(Limits.__dataclass_fields__, "standard's")
    shared = keys_of(Limits, without=("name", "own"), defaults=standard)
    return (
        _own("limits", "limits", "Limits that several rules share.", (ABOUT, *shared)),
        *(
            _own(f"limits.{kind.name}", "limits", f"Compares {kind.compares}.", _rule_keys(kind), f'["{kind.name}"]')
            for kind in rule_kinds().values()
            if kind.limits
        ),
    )


def _rule_keys(kind: RuleKind) -> tuple[Key, ...]:
    """Return the limits that one rule alone uses."""
    return tuple(
        Key(
            name=key,
            takes="number",
            unit=unit_of(key),
            default=f"{number.value:g}",
            meaning=f"Source: {number.source}.",
        )
        for key, number in kind.limits.items()
    )

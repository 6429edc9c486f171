"""Job: a job file and its profiles become frozen records.

1. ``read_job(path)`` reads and checks a ``job.toml``; every mistake is one sentence with file, key and cure.
2. ``read_printer``, ``read_material``, ``read_settings`` read a shipped profile by name or a file by path.
3. ``scale_from(measure, device_mm)`` turns a measure of the recipient into a scale.
"""

from planner.job.body_motion import BodyMotion, read_motions
from planner.job.bought import BoreEnds, Cord, Fit, Hardware, HardwareKind, Nut, OtherBore, Padding, Spool, Strap
from planner.job.calendar import Attended, Calendar, Weights
from planner.job.editing.edit_settings import write_settings
from planner.job.editing.write_edits import write_edits
from planner.job.file.calendar_table import read_windows
from planner.job.file.changes import Changes, changes_of
from planner.job.file.edits import Edit, completed, edited, source_text, with_edits
from planner.job.file.job_file import read_job, with_changes
from planner.job.file.padding_outline import area_mm2, read_outline
from planner.job.file.plate_sharing import joined
from planner.job.file.table import Table
from planner.job.file.toml_file import read_toml
from planner.job.file.use_table import LOAD_LEAST_N, LOAD_MOST_N
from planner.job.hand_work import HandMinutes, HandWork, WorkKind
from planner.job.job import (
    LANGUAGES,
    Duty,
    Gap,
    Job,
    Joint,
    JointKind,
    Language,
    LeftOpen,
    Override,
    Part,
    PartScale,
    Use,
)
from planner.job.job_printers import PRINTER_ASKED, PRINTER_QUESTION, fit_printers, printer_named, printers_of, why_not
from planner.job.marked_guesses import marked_guesses
from planner.job.measure_scale import padded_mm, scale_from
from planner.job.measured_size import Measure, MeasureKind, Side, Size, Station
from planner.job.pose_weights import PoseWeights, read_pose_weights
from planner.job.profiles.body_sizes import BodySize, read_bodies
from planner.job.profiles.environments import Environment
from planner.job.profiles.failure_rules import FailureRule, read_failure_rules
from planner.job.profiles.hands_on import read_hands_on
from planner.job.profiles.limits import Limits
from planner.job.profiles.material import Material
from planner.job.profiles.print_settings import Settings
from planner.job.profiles.printer import Bed, Calibration, Printer
from planner.job.profiles.profile_file import (
    SETTINGS_RANGES,
    printer_text,
    read_environments,
    read_limits,
    read_material,
    read_printer,
    read_settings,
)
from planner.job.profiles.rule_kind import CureKind, Gives, RuleKind, kind_of, rule_kinds
from planner.job.profiles.shipped import shipped, shipped_names
from planner.job.profiles.stock_file import read_tables
from planner.job.profiles.stock_sizes import HardwareTables, StockSize
from planner.job.program_stamp import program_stamp
from planner.job.reference.find_keys import key_tables, matching
from planner.job.reference.glossary import Term, read_glossary, terms_in
from planner.job.reference.key import NEEDED, Key, KeyTable
from planner.job.reference.key_unit import unit_of
from planner.job.reference.record_keys import keys_of
from planner.job.start.folder_job import job_of_folder
from planner.job.start.write_job import job_text
from planner.job.stated_movement import (
    Drive,
    Equaliser,
    NamedPoint,
    PartPlace,
    PathPoint,
    copy_name,
    number_of,
    part_of,
)
from planner.job.usable_bed import bed_edge, usable_ground

__all__ = [
    "LANGUAGES",
    "LOAD_LEAST_N",
    "LOAD_MOST_N",
    "NEEDED",
    "PRINTER_ASKED",
    "PRINTER_QUESTION",
    "SETTINGS_RANGES",
    "Attended",
    "Bed",
    "BodyMotion",
    "BodySize",
    "BoreEnds",
    "Calendar",
    "Calibration",
    "Changes",
    "Cord",
    "CureKind",
    "Drive",
    "Duty",
    "Edit",
    "Environment",
    "Equaliser",
    "FailureRule",
    "Fit",
    "Gap",
    "Gives",
    "HandMinutes",
    "HandWork",
    "Hardware",
    "HardwareKind",
    "HardwareTables",
    "Job",
    "Joint",
    "JointKind",
    "Key",
    "KeyTable",
    "Language",
    "LeftOpen",
    "Limits",
    "Material",
    "Measure",
    "MeasureKind",
    "NamedPoint",
    "Nut",
    "OtherBore",
    "Override",
    "Padding",
    "Part",
    "PartPlace",
    "PartScale",
    "PathPoint",
    "PoseWeights",
    "Printer",
    "RuleKind",
    "Settings",
    "Side",
    "Size",
    "Spool",
    "Station",
    "StockSize",
    "Strap",
    "Table",
    "Term",
    "Use",
    "Weights",
    "WorkKind",
    "area_mm2",
    "bed_edge",
    "changes_of",
    "completed",
    "copy_name",
    "edited",
    "fit_printers",
    "job_of_folder",
    "job_text",
    "joined",
    "key_tables",
    "keys_of",
    "kind_of",
    "marked_guesses",
    "matching",
    "number_of",
    "padded_mm",
    "part_of",
    "printer_named",
    "printer_text",
    "printers_of",
    "program_stamp",
    "read_bodies",
    "read_environments",
    "read_failure_rules",
    "read_glossary",
    "read_hands_on",
    "read_job",
    "read_limits",
    "read_material",
    "read_motions",
    "read_outline",
    "read_pose_weights",
    "read_printer",
    "read_settings",
    "read_tables",
    "read_toml",
    "read_windows",
    "rule_kinds",
    "scale_from",
    "shipped",
    "shipped_names",
    "source_text",
    "terms_in",
    "unit_of",
    "usable_ground",
    "why_not",
    "with_changes",
    "with_edits",
    "write_edits",
    "write_settings",
]

"""Job: a job file and its profiles become frozen records.

1. ``read_job(path)`` reads and checks a ``job.toml``; every mistake is one sentence with file, key and cure.
2. ``read_printer``, ``read_material``, ``read_settings`` read a shipped profile by name or a file by path.
3. ``scale_from(measure, device_mm)`` turns a measure of the recipient into a scale.
"""

from planner.job.body import BodySize, read_bodies
from planner.job.calendar import Attended, Calendar, Weights
from planner.job.edit_settings import write_settings
from planner.job.failure_rules import FailureRule, read_failure_rules
from planner.job.folder_job import job_of_folder
from planner.job.ground import bed_edge, usable_ground
from planner.job.hands_on import HandsOn, read_hands_on
from planner.job.hardware import HardwareTables, StockSize
from planner.job.job import (
    Cord,
    Duty,
    Fit,
    Gap,
    Hardware,
    HardwareKind,
    Job,
    Joint,
    JointKind,
    Measure,
    MeasureKind,
    Override,
    Padding,
    Part,
    PartScale,
    Side,
    Size,
    Spool,
    Station,
    Strap,
    Use,
)
from planner.job.job_file import read_job, with_changes
from planner.job.job_plates import joined
from planner.job.limits import Limits
from planner.job.material import Material
from planner.job.outline_file import area_mm2 as outline_area_mm2
from planner.job.outline_file import read_outline
from planner.job.places import Place
from planner.job.printer import Bed, Calibration, GoesOn, Printer, Undersize
from planner.job.profile_file import (
    printer_text,
    read_limits,
    read_material,
    read_places,
    read_printer,
    read_settings,
    shipped_names,
)
from planner.job.settings import Settings
from planner.job.shop_floor import fit_printers, printer_named, printers_of, why_not
from planner.job.size import padded_mm, scale_from
from planner.job.table import Table, read_toml
from planner.job.tables_file import read_tables
from planner.job.where import shipped
from planner.job.write_job import job_text

__all__ = [
    "Attended",
    "Bed",
    "BodySize",
    "Calendar",
    "Calibration",
    "Cord",
    "Duty",
    "FailureRule",
    "Fit",
    "Gap",
    "GoesOn",
    "HandsOn",
    "Hardware",
    "HardwareKind",
    "HardwareTables",
    "Job",
    "Joint",
    "JointKind",
    "Limits",
    "Material",
    "Measure",
    "MeasureKind",
    "Override",
    "Padding",
    "Part",
    "PartScale",
    "Place",
    "Printer",
    "Settings",
    "Side",
    "Size",
    "Spool",
    "Station",
    "StockSize",
    "Strap",
    "Table",
    "Undersize",
    "Use",
    "Weights",
    "bed_edge",
    "fit_printers",
    "job_of_folder",
    "job_text",
    "joined",
    "outline_area_mm2",
    "padded_mm",
    "printer_named",
    "printer_text",
    "printers_of",
    "read_bodies",
    "read_failure_rules",
    "read_hands_on",
    "read_job",
    "read_limits",
    "read_material",
    "read_outline",
    "read_places",
    "read_printer",
    "read_settings",
    "read_tables",
    "read_toml",
    "scale_from",
    "shipped",
    "shipped_names",
    "usable_ground",
    "why_not",
    "with_changes",
    "write_settings",
]

"""The tables of ``job.toml``, in the order of a file."""

from __future__ import annotations

from planner.job.bought import Cord, Hardware, OtherBore, Padding, Spool, Strap
from planner.job.calendar import Calendar, Weights
from planner.job.file.job_file import AUTO, LIMITS, PRINTER, SETTINGS
from planner.job.hand_work import HandMinutes, HandWork
from planner.job.job import Gap, Job, Joint, LeftOpen, Override, Part, Use
from planner.job.measured_size import Measure, Size, Station
from planner.job.profiles.print_settings import Settings
from planner.job.reference.key import Key, KeyTable
from planner.job.reference.record_keys import keys_of
from planner.job.stated_movement import Drive, NamedPoint, PartPlace

HEAD = (
    "name",
    "recipient",
    "language",
    "mesh_unit",
    "printer",
    "nozzle_mm",
    "material",
    "settings",
    "limits",
    "tried_percent",
    "guessed_keys",
)
PRINTERS = Key(
    name="printers",
    takes="list of names or files",
    unit="",
    default="",
    meaning="All printers that may run plates; a name twice means two of a kind. Left out: the job's own.",
)
DEVICE = Key(
    name="device",
    takes="{ part, station_percent }",
    unit="",
    default="",
    meaning="Instead of device_mm: a place on a mesh where it is measured.",
)
FIRST = 'true, false, "joint"'


def _table(name: str, about: str, keys: tuple[Key, ...], *, many: bool = False) -> KeyTable:
    """Return one table of the job file."""
    return KeyTable(name=name, heading=f"[[{name}]]" if many else f"[{name}]", file="job.toml", about=about, keys=keys)


def job_tables() -> tuple[KeyTable, ...]:
    """Return every table of a job file."""
    optional = dict.fromkeys(Settings.__dataclass_fields__, "the profile's")
    return (
        _table(
            "job",
            "The job's name, and the profiles that it uses. Needed.",
            keys_of(
                Job,
                HEAD,
                named={"guessed_keys": "guessed"},
                takes={"mesh_unit": "mm, cm, m, inch", "material": 'name, file or "auto"'},
                defaults={"printer": PRINTER, "material": AUTO, "settings": SETTINGS, "limits": LIMITS},
            ),
        ),
        _table("size", "Scale and side.", keys_of(Size, without=("measures", "what_if"))),
        _table(
            "size.measure",
            "One measure of the recipient; each asks for a scale.",
            (*keys_of(Measure, defaults={"device_mm": "or device"}), DEVICE),
            many=True,
        ),
        _table(
            "size.measure.device",
            "A place on a mesh where the device is measured.",
            keys_of(Station),
        ),
        _table("part", "One kind of printed part; at least one is needed.", _part_keys(), many=True),
        _table("hardware", "Something bought that does not scale.", keys_of(Hardware), many=True),
        _table(
            "hardware.other_bores",
            "What differs in one of its parts, such as a pin held in a fork and turning in its lever.",
            keys_of(OtherBore),
            many=True,
        ),
        _table("gap", "A printed running gap between two parts.", keys_of(Gap), many=True),
        _table("open", "Openings that nothing goes through.", keys_of(LeftOpen), many=True),
        _table(
            "joint", "Two parts that meet in a way that no bore shows.", keys_of(Joint, without=("copies",)), many=True
        ),
        _table(
            "cord",
            "A cord in a channel of a part.",
            keys_of(Cord, named={"drawn_from": "from"}, takes={"path": "list of places"}),
            many=True,
        ),
        _table("strap", "A strap through a slot.", keys_of(Strap), many=True),
        _table("padding", "Foam on a part.", keys_of(Padding, without=("rings_mm",)), many=True),
        _table(
            "work", "Work by hand on printed bores, pegs and flat faces, in its order.", keys_of(HandWork), many=True
        ),
        _table(
            "place",
            "Where a copy of a part stands, at 100 %.",
            keys_of(PartPlace, takes={"turn": "[x, y, z, degrees]"}),
            many=True,
        ),
        _table("point", "A point of a part that a cord's path names.", keys_of(NamedPoint), many=True),
        _table("hands", "How long hands take with this device, where timed.", keys_of(HandMinutes)),
        _table("drive", "The body's joint that pulls the cords.", keys_of(Drive)),
        _table("spool", "Filament at hand.", keys_of(Spool), many=True),
        _table("use", "How and by whom the device is used; nothing about health or identity.", keys_of(Use)),
        _table("settings", "Single print settings instead of the profile's.", _own_settings(optional)),
        _table("plan", "When printing may start and must end, who is there, how plates are made.", _plan_keys()),
        _table(
            "plan.weigh",
            "What counts when a split is weighed, all three in the same unit of your choice.",
            keys_of(
                Weights,
                named={"per_hour": "hour", "per_lost_g": "lost_g", "per_change": "change"},
                defaults={"per_hour": "0"},
            ),
        ),
        _table("override", "A hold lifted by a person, kept in the record.", keys_of(Override), many=True),
    )


def _part_keys() -> tuple[Key, ...]:
    """Return the keys of ``[[part]]``."""
    return keys_of(
        Part, named={"scale_percent": "scale"}, takes={"pose": '"auto" or [x, y, z]'}, defaults={"scale_percent": "job"}
    )


def _plan_keys() -> tuple[Key, ...]:
    """Return the keys of ``[plan]``."""
    own = keys_of(
        Calendar,
        without=("joint_first",),
        named={"people_n": "people", "weights": "weigh"},
        takes={"first_article": FIRST, "weights": "{ hour, lost_g, change }"},
        defaults={"weights": "hours alone"},
    )
    return (*own, PRINTERS)


def _own_settings(defaults: dict[str, str]) -> tuple[Key, ...]:
    """Return the keys of ``[settings]``: those of a profile, of which none is needed."""
    return keys_of(Settings, without=("name",), defaults=defaults)

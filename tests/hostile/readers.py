"""Every reader of a file that a person may hand in, as one function each, with small sound files to begin from."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

from planner.calibrate import coupon, read_log, read_readings, readings_text
from planner.gcode import measure
from planner.job import read_job, read_limits, read_material, read_outline, read_printer, read_settings, shipped
from planner.ledger import exported, imported, made, told
from planner.mesh import read_solid
from planner.output import read_record
from tests.ledger.telling import DAY, chapter
from tests.shapes import DATA, cuboid, written

Read = Callable[[Path], object]
LOG = """plate,planned_h,real_h,planned_g,real_g,outcome,cause,failed_at_h,pieces,lost
1,3.5,3.6,40,41,done,,,jaw:4 cap:2,
2,3.5,,40,,failed,warp,1.2,8,jaw:1
"""
PROGRAM = """; a square of two layers
G21
G90
M82
M104 S230
M140 S70
G28
G92 E0
G1 Z0.2 F3000
G1 X50 Y50 F9000
G1 X80 Y50 E1.2 F1800
G1 X80 Y80 E2.4
G1 X50 Y80 E3.6
G1 X50 Y50 E4.8
M106 S127
G1 Z0.4 F3000
G2 X80 Y80 I15 J15 E7.5 F1800
G3 X50 Y50 I-15 J-15 E10.2
M221 S95
G1 X80 Y50 E11.4
M104 S0
M84
"""
RECORD = """[of]
job = "Heron"
scale_percent = 106.5
printer = "bench-220"
material = "petg"
parts_sha256 = "aaaaaaaaaaaaaaaa"

[test]
on = 2026-12-12

[[test.trial]]
trial = "pieces"
result = "pass"
reading = 3.5

[[measure]]
name = "forearm"
recipient_mm = 58.0

[[lot]]
of = "petg"
lot = "L-9"

[[override]]
item = "plan"
role = "lead"
reason = "seen"
"""


def _ledger(path: Path) -> object:
    """Import an export into a ledger of its own."""
    where = path.with_name("other.db")
    where.unlink(missing_ok=True)
    engine = made(str(where))
    try:
        return imported(engine, path.parent)
    finally:
        engine.dispose()


@cache
def _bench() -> object:
    """Return the printer that programs are measured for."""
    return read_printer("bench-220", Path())


READERS: dict[str, Read] = {
    "mesh": read_solid,
    "job": read_job,
    "log": read_log,
    "readings": read_readings,
    "outline": read_outline,
    "program": lambda path: measure(path, _bench()),  # type: ignore[arg-type]
    "record": read_record,
    "journal": _ledger,
    "printer": lambda path: read_printer(path.name, path.parent),
    "material": lambda path: read_material(path.name, path.parent),
    "settings": lambda path: read_settings(path.name, path.parent),
    "limits": lambda path: read_limits(path.name, path.parent),
}
"""By what is handed in."""


def sound_files(folder: Path) -> dict[str, list[Path]]:
    """Write small sound files of every kind into a folder and return them."""
    folder.mkdir(parents=True, exist_ok=True)
    profiles, heron = Path(str(shipped("profiles"))), Path(str(shipped("sample_parts"))) / "heron"
    box = folder / "box.stl"
    written(cuboid(20, 10, 8), box)
    texts = {
        "log.csv": LOG,
        "program.gcode": PROGRAM,
        "record.toml": RECORD,
        "readings.toml": readings_text(coupon(0.45).features, "bench-220", "petg", 0.4, DAY.date()).replace(
            "# measured_mm = 0.00", "measured_mm = 2.8", 1
        ),
        "ascii.stl": _ascii(box),
        "full.toml": (DATA / "jobs" / "full.toml").read_text(encoding="utf-8").replace("cuff.stl", "box.stl"),
    }
    for name, text in texts.items():
        (folder / name).write_text(text, encoding="utf-8")
    engine = made(str(folder / "ledger.db"))
    told(engine, chapter(), DAY)
    journal = exported(engine, folder / "out")[0]
    engine.dispose()
    meshes = [DATA / "bores" / name for name in ("stack_spacer.stl", "mirror.ply")]
    meshes += [DATA / "meshes" / name for name in ("soup.stl", "wallhole.obj")]
    return {
        "mesh": [box, folder / "ascii.stl", heron / "parts" / "buckle.3mf", *meshes],
        "job": [folder / "full.toml", heron / "job.toml"],
        "log": [folder / "log.csv"],
        "readings": [folder / "readings.toml"],
        "outline": [heron / "cuff-padding.svg"],
        "program": [folder / "program.gcode", *sorted((DATA / "gcode").glob("*.nc"))],
        "record": [folder / "record.toml"],
        "journal": [journal],
        "printer": sorted((profiles / "printers").glob("*.toml"))[:3],
        "material": sorted((profiles / "materials").glob("*.toml"))[:2],
        "settings": sorted((profiles / "settings").glob("*.toml"))[:2],
        "limits": sorted((profiles / "limits").glob("*.toml"))[:1],
    }


def _ascii(path: Path) -> str:
    """Return a mesh as STL in words."""
    lines = ["solid box"]
    for corners in read_solid(path).corners_mm:
        lines += ["facet normal 0 0 0", " outer loop"]
        lines += [f"  vertex {x:g} {y:g} {z:g}" for x, y, z in corners]
        lines += [" endloop", "endfacet"]
    return "\n".join([*lines, "endsolid box", ""])

"""The job file: ``job.toml`` becomes a :class:`Job`, whole and checked, or one sentence says why not."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from planner.errors import JobError, nearest
from planner.finding import Guess
from planner.job.bought import Spool
from planner.job.calendar import Calendar
from planner.job.file.calendar_table import read_calendar, read_more_printers
from planner.job.file.hardware_tables import (
    read_cords,
    read_gaps,
    read_hardware,
    read_left_open,
    read_paddings,
    read_straps,
)
from planner.job.file.movement_tables import read_drive, read_joints, read_part_places, read_points
from planner.job.file.part_tables import implied_part, read_part
from planner.job.file.size_table import read_size
from planner.job.file.table import Table, unique
from planner.job.file.toml_file import read_toml
from planner.job.file.use_table import read_overrides, read_use
from planner.job.file.work_tables import read_hand_minutes, read_works
from planner.job.job import LANGUAGES, MESH_UNITS, Job, Language, MeshUnit, Part
from planner.job.measured_size import Size, Station
from planner.job.profiles.material import Material
from planner.job.profiles.printer import Printer
from planner.job.profiles.profile_file import read_limits, read_material, read_printer, read_settings
from planner.job.profiles.shipped import shipped_names
from planner.job.profiles.stock_file import read_tables
from planner.job.stated_movement import number_of, part_of
from planner.sourced import stated

AUTO, PRINTER, SETTINGS, LIMITS = "auto", "bench-220", "standard-0.4", "standard"
"""What ``[job]`` names where it names nothing."""
CODE = re.compile(r"(?=.*[0-9])[A-Za-z0-9._/-]{1,16}")
"""A recipient's code: letters, digits, and at least one digit, so that no name passes by mistake."""


def read_job(path: Path) -> Job:
    """Read and check a job file; paths in it are relative to it.

    Raises
    ------
    JobError, ProfileError
        With file, key, what is wrong and what to do; the nearest known key is named.
    """
    return job_of_table(read_toml(path, JobError), path, path.resolve().parent)


def job_of_table(table: Table, path: Path, base: Path) -> Job:
    """Return the job that a file's table says; paths in it are relative to ``base``.

    Raises
    ------
    JobError, ProfileError
        As ``read_job`` does.
    """
    head = table.table("job")
    parts, notes = _parts(table, base)
    spools = tuple(_spool(spool) for spool in table.tables("spool"))
    material, materials = _materials(head.text("material", AUTO), spools, base)
    own_settings, nozzle = table.table_or_empty("settings"), head.number_or_none("nozzle_mm", low=0.05, high=3.0)
    job = Job(
        name=head.text("name"),
        path=path,
        parts=parts,
        printer=_with_nozzle(read_printer(head.text("printer", PRINTER), base), nozzle, path.name),
        nozzle_mm=nozzle,
        settings=read_settings(head.text("settings", SETTINGS), base, own_settings),
        materials=materials,
        limits=read_limits(head.text("limits", LIMITS), base),
        tables=read_tables(),
        material=material,
        recipient=_recipient(head),
        language=head.word("language", LANGUAGES, "en"),
        mesh_unit=_unit(head),
        tried_percent=_tried(head),
        size=read_size(table),
        hardware=read_hardware(table),
        gaps=read_gaps(table),
        left_open=read_left_open(table),
        joints=read_joints(table),
        cords=read_cords(table),
        straps=read_straps(table),
        paddings=read_paddings(table, base),
        works=read_works(table),
        hands=read_hand_minutes(table),
        spools=spools,
        places=read_part_places(table),
        points=read_points(table),
        drive=read_drive(table),
        use=read_use(table),
        calendar=read_calendar(table),
        more_printers=read_more_printers(table, head.text("printer", PRINTER), base),
        overrides=read_overrides(table),
        guessed_keys=head.guessed(),
        notes=notes,
    )
    head.done()
    table.done()
    return _with_named_parts(job, path.name, base)


def _with_nozzle(printer: Printer, nozzle_mm: float | None, file: str) -> Printer:
    """Return the printer with the nozzle that the job says is fitted."""
    return printer if nozzle_mm is None else replace(printer, nozzle_mm=stated(nozzle_mm, f"{file}, nozzle_mm"))


def _parts(table: Table, base: Path) -> tuple[tuple[Part, ...], tuple[Guess, ...]]:
    """Read the parts; at least one is needed."""
    parts = tuple(read_part(part, base) for part in table.tables("part"))
    if not parts:
        table.refuse("[[part]]", "there is no part", 'add [[part]] with name and mesh, or use "fitwright start FOLDER"')
    unique((part.name for part in parts), table.where, "parts")
    return parts, ()


def _recipient(head: Table) -> str:
    """Read the recipient's code; refuse what looks like a name."""
    code = head.text("recipient", "", empty=True)
    if code and not CODE.fullmatch(code):
        wrong = (
            f"'{code}' looks like a name: a code has at most 16 letters and digits, one digit at least, and no space"
        )
        head.refuse("recipient", wrong, 'write a code, never a name, such as recipient = "R-07"')
    return code


def _unit(head: Table) -> MeshUnit | None:
    """Read the unit of the meshes; mm that nobody stated count as left out, so that what shows otherwise is heeded."""
    if not head.has("mesh_unit"):
        return None
    unit = head.word("mesh_unit", MESH_UNITS)
    return None if unit == "mm" and "mesh_unit" in head.texts("guessed") else unit


def _of_plate_rules(calendar: Calendar) -> tuple[str, ...]:
    """Return the names that the rules about shared plates use."""
    return tuple(dict.fromkeys(name for names in (*calendar.together, *calendar.apart) for name in names))


def _tried(head: Table) -> tuple[float, float] | None:
    """Read the sizes that somebody has built."""
    if not head.has("tried_percent"):
        return None
    low, high = head.numbers("tried_percent", 2, low=1.0, high=1000.0)
    if low > high:
        head.refuse("tried_percent", f"{low:g} is larger than {high:g}", "write the smaller one first")
    return low, high


def _spool(table: Table) -> Spool:
    """Read one spool."""
    spool = Spool(
        material=table.text("material"),
        colour=table.text("colour", "any"),
        left_g=table.number_or_none("left_g", high=1e5),
        price_per_kg=table.number_or_none("price_per_kg", high=1e5),
        id=table.text("id", ""),
    )
    table.done()
    return spool


def _materials(name: str, spools: tuple[Spool, ...], base: Path) -> tuple[Material | None, tuple[Material, ...]]:
    """Return the material named, and all that may be chosen from."""
    if name != AUTO:
        material = read_material(name, base)
        return material, (material,)
    names = dict.fromkeys(spool.material for spool in spools) or shipped_names("materials")
    return None, tuple(read_material(each, base) for each in names)


def _with_named_parts(job: Job, file: str, base: Path) -> Job:
    """Refuse names of parts that do not exist; add those whose mesh lies next to the others."""
    parts = {part.name: part for part in job.parts}
    notes = list(job.notes)
    for where, names in _named(job).items():
        for name in names:
            if name in parts:
                continue
            part = implied_part(name, [p.mesh.parent for p in job.parts])
            if part is None:
                raise JobError(where=f"{file}: {where}", wrong=f"no part is called '{name}'", todo=nearest(name, parts))
            parts[name] = part
            told = (
                f"no [[part]] names it; {part.mesh.relative_to(base) if part.mesh.is_relative_to(base) else part.mesh}"
            )
            notes.append(Guess(what=f"part {name}", value="one copy", why=told + " lies beside the others"))
    for where, copies in _named_copies(job).items():
        for copy in copies:
            count = parts[part_of(copy)].count
            if number_of(copy) > count:
                wrong = f"there is no {copy}: {part_of(copy)} has count = {count}"
                raise JobError(where=f"{file}: {where}", wrong=wrong, todo="check the number, or the part's count")
    return replace(job, parts=tuple(parts.values()), notes=tuple(notes))


def _named_copies(job: Job) -> dict[str, tuple[str, ...]]:
    """Return every copy of a part that a table of the job names, by that table."""
    return {
        **{f"[[joint]] {' to '.join(j.copies)}": j.copies for j in job.joints},
        **{f"[[cord]] '{c.name}' path": tuple(point.copy for point in c.path) for c in job.cords},
        **{f"[[cord]] '{c.name}' drives": (c.drives,) for c in job.cords if c.drives},
        **{f"[[place]] {place.part} part": (place.part,) for place in job.places},
    }


def _named(job: Job) -> dict[str, tuple[str, ...]]:
    """Return every part that a table of the job names, by that table."""
    return {
        **{f"[[hardware]] '{h.name}' joins": h.joins for h in job.hardware},
        **{f"[[hardware]] '{h.name}' printed": (h.printed,) for h in job.hardware if h.printed},
        **{f"[[gap]] {g.between[0]}, {g.between[1]}": g.between for g in job.gaps},
        **{f"[[open]] '{o.name}' parts": o.parts for o in job.left_open},
        **{f"[[cord]] '{c.name}' part": (c.part,) for c in job.cords},
        **{where: tuple(map(part_of, copies)) for where, copies in _named_copies(job).items()},
        **{f"[[point]] {p.part}, {p.name} part": (p.part,) for p in job.points},
        **{f"[[strap]] '{s.name}' part": (s.part,) for s in job.straps},
        **{f"[[padding]] {p.part}": (p.part,) for p in job.paddings},
        **{f"[[work]] {w.kind} part": (w.part,) for w in job.works},
        **{f"[[work]] {w.kind} into": (w.into,) for w in job.works if w.into},
        **({"[plan] together, apart": _of_plate_rules(job.calendar)} if job.calendar else {}),
        **{
            f"[[size.measure]] '{m.name}' device": (m.device_mm.part,)
            for m in job.size.measures
            if isinstance(m.device_mm, Station)
        },
        **{f"[[override]] {o.rule} part": (o.part,) for o in job.overrides if o.part},
    }


def with_changes(
    job: Job,
    *,
    percent: float | None = None,
    printer: str | None = None,
    material: str | None = None,
    language: Language | None = None,
) -> Job:
    """Return the job with a scale, printer or material tried instead of its own, or papers in another language.

    Raises
    ------
    JobError, ProfileError
        Where the percent cannot be, or no such profile exists.
    """
    base = job.path.resolve() if job.path.is_dir() else job.path.resolve().parent
    if percent is not None:
        if not 1.0 <= percent <= 1000.0:
            raise JobError(where="--scale", wrong=f"{percent:g} % cannot be", todo="give a percent from 1 to 1000")
        job = replace(job, size=_tried_size(job.size, percent))
    if printer is not None:
        keys = tuple(key for key in job.guessed_keys if key != "printer")
        job = replace(job, printer=read_printer(printer, base), nozzle_mm=None, guessed_keys=keys)
    if material is not None:
        found = read_material(material, base)
        job = replace(job, material=found, materials=(found,))
    return job if language is None else replace(job, language=language)


def _tried_size(size: Size, percent: float) -> Size:
    """Return the size with a percent that is only tried."""
    return replace(size, percent=percent, what_if=True)

"""The words of ``fitwright start``: measures, side, bed and materials at hand."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import tomlkit

from planner.errors import CommandError, nearest
from planner.job import Measure, MeasureKind, Printer, Side, Spool, Station, printer_text, read_printer, shipped_names
from planner.phrases import listed

MIDDLE_PERCENT = 50.0
NUMBER = r"(\d+(?:\.\d+)?)"
MEASURE = re.compile(rf"(?P<part>.+)=(?:(?P<kind>width|around|length):)?{NUMBER}(?:/{NUMBER})?")
BED = re.compile(rf"{NUMBER}x{NUMBER}x{NUMBER}")


def measures_of(words: Sequence[str], parts: Sequence[str]) -> tuple[Measure, ...]:
    """Return the measures: ``cuff=58``, ``cuff=58/62``, ``cuff=around:190``.

    Raises
    ------
    CommandError
        Where a measure cannot be read, is zero, or names a part that is not there.
    """
    return tuple(_measure(word, parts) for word in words)


def _measure(word: str, parts: Sequence[str]) -> Measure:
    """Return one measure."""
    found = MEASURE.fullmatch(word)
    if found is None or float(found[3]) <= 0:
        raise CommandError(where=f"--measure {word}", wrong="it cannot be read", todo="write PART=MM, such as cuff=58")
    name, kind = found["part"], found["kind"] or "width"
    if name not in parts and found[4] is None:
        raise CommandError(
            where=f"--measure {word}",
            wrong=f"no part is called '{name}'",
            todo=nearest(name, parts) + "; or give the device's own measure at 100 % too, as in cuff=58/62",
        )
    kinds: dict[str, MeasureKind] = {"width": "width", "around": "around", "length": "length"}
    device: float | Station = float(found[4]) if found[4] else Station(part=name, station_percent=MIDDLE_PERCENT)
    guessed = ["padding_mm", "ease_mm"]
    guessed += [] if found["kind"] else ["kind"]
    guessed += [] if found[4] else ["device_mm"]
    return Measure(
        name=f"{kind} at {name}",
        kind=kinds[kind],
        recipient_mm=float(found[3]),
        device_mm=device,
        guessed=tuple(guessed),
    )


def only_for_new(there: Path, **options: object) -> None:
    """Refuse the options that only a new job file takes, where answers go into one that is there.

    Raises
    ------
    CommandError
        Where one is given: it would be ignored.
    """
    given = [f"--{name}" for name, value in options.items() if value]
    if given:
        todo = "state it in the file, or add --force to replace it"
        raise CommandError(
            where=str(there), wrong=f"this job is there already, and {listed(given)} is only for a new one", todo=todo
        )


def side_of(word: str | None) -> Side | None:
    """Return the side."""
    sides: dict[str, Side] = {"left": "left", "right": "right"}
    if word is None:
        return None
    if word not in sides:
        raise CommandError(where=f"--side {word}", wrong="it is not a side", todo="write left or right")
    return sides[word]


def spools_of(words: str | None) -> tuple[Spool, ...]:
    """Return the materials at hand as spools of unknown weight."""
    names = [word.strip().lower() for word in (words or "").split(",") if word.strip()]
    known = shipped_names("materials")
    for name in names:
        if name not in known:
            raise CommandError(where=f"--have {name}", wrong="this material is not included", todo=nearest(name, known))
    return tuple(Spool(material=name) for name in names)


def printer_of(name: str | None, bed: str | None, folder: Path) -> tuple[Printer, str, str | None]:
    """Return the printer, what the job file calls it, and the text of a profile of its own where a bed is stated."""
    printer = read_printer(name or "bench-220", folder)
    if bed is None:
        return printer, name or "bench-220", None
    found = BED.fullmatch(bed.lower().replace(" ", ""))
    if found is None or min(map(float, found.groups())) <= 0:
        raise CommandError(where=f"--bed {bed}", wrong="it cannot be read", todo="write it as 220x220x240, in mm")
    x, y, z = (float(value) for value in found.groups())
    own = replace(printer, bed=replace(printer.bed, shape="rectangle", size_mm=(x, y), height_mm=z))
    return own, "my-printer.toml", _with_bed(printer_text(name or "bench-220", folder), x, y, z)


def _with_bed(text: str, x: float, y: float, z: float) -> str:
    """Return a printer profile with another bed; all else in it keeps its range and its source."""
    document = tomlkit.parse(text)
    bed = tomlkit.inline_table()
    margin = document["bed"].get("margin_mm", 0.0)
    bed.update({"shape": "rectangle", "size_mm": [x, y], "height_mm": z, "margin_mm": margin})
    document["bed"] = bed
    document["about"] = f"{document['about']}, with your bed"
    head = "# GUESS: all but the bed is that of a common printer; print the coupon to measure yours.\n"
    return head + tomlkit.dumps(document)

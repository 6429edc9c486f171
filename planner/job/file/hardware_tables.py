"""Hardware, gaps, cords, straps and padding of a job file: the things that keep their size."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import get_args

from planner.job.bought import BoreEnds, Cord, Fit, Hardware, HardwareKind, Nut, OtherBore, Padding, Strap
from planner.job.file.movement_tables import read_path
from planner.job.file.padding_outline import area_mm2, read_outline
from planner.job.file.table import Table
from planner.job.file.toml_file import is_there
from planner.job.job import Gap, LeftOpen
from planner.job.stated_movement import Equaliser
from planner.phrases import listed

HARDWARE_KINDS: tuple[HardwareKind, ...] = get_args(HardwareKind)
SCREWS = ("machine-screw", "wood-screw")
NUTS: tuple[Nut, ...] = get_args(Nut)
BORE_ENDS: tuple[BoreEnds, ...] = get_args(BoreEnds)
EQUALISERS: tuple[Equaliser, ...] = get_args(Equaliser)
FITS: tuple[Fit, ...] = get_args(Fit)
FRICTION_LEAST = 0.01
"""Less is a slip that makes every cord light to pull; PTFE on steel slides at 0.04 (handbooks, from memory)."""
THIN_LEAST_MM = 0.05
"""What is thinner is no screw, pin or cord but a slip."""


def read_hardware(table: Table) -> tuple[Hardware, ...]:
    """Read every ``[[hardware]]``."""
    return tuple(_hardware(each) for each in table.tables("hardware"))


def _hardware(table: Table) -> Hardware:
    """Read one piece of hardware."""
    hardware = Hardware(
        name=table.text("name"),
        kind=table.word("kind", HARDWARE_KINDS),
        diameter_mm=table.number("diameter_mm", low=THIN_LEAST_MM, high=200.0),
        joins=table.texts("joins", least=1),
        bore_mm=table.number_or_none("bore_mm", high=500.0, above=True),
        fit=table.word("fit", FITS) if table.has("fit") else None,
        stack_mm=table.number_or_none("stack_mm", high=5000.0),
        count=table.count("count", 1),
        size_mm=table.number_or_none("size_mm", high=500.0, above=True),
        price_each=table.number_or_none("price_each", high=1e5),
        pilot_mm=table.number_or_none("pilot_mm", high=500.0, above=True),
        other_bores=tuple(_other_bore(each) for each in table.tables("other_bores")),
        nut=table.word("nut", NUTS) if table.has("nut") else None,
        washers=table.count("washers", 0, low=0, high=2) if table.has("washers") else None,
        printed=table.text("printed", ""),
        pitch_mm=table.number_or_none("pitch_mm", high=100.0, above=True),
        path_mm=table.number_or_none("path_mm", high=1e5, above=True),
        bores=table.word("bores", BORE_ENDS) if table.has("bores") else None,
        guessed=table.guessed(),
    )
    table.done()
    _kept_to_its_kind(table, hardware)
    return hardware


def _other_bore(table: Table) -> OtherBore:
    """Read what differs in one part."""
    found = OtherBore(
        part=table.text("part"),
        bore_mm=table.number_or_none("bore_mm", high=500.0, above=True),
        fit=table.word("fit", FITS) if table.has("fit") else None,
    )
    table.done()
    if found.bore_mm is None and found.fit is None:
        table.refuse("bore_mm", "nothing is said to differ there", "write bore_mm or fit, or leave this part out")
    return found


def _kept_to_its_kind(table: Table, hardware: Hardware) -> None:
    """Refuse a key that means nothing for a kind of hardware, and a bearing without its outside."""
    for key, kinds in {
        "pilot_mm": SCREWS,
        "nut": SCREWS,
        "washers": SCREWS,
        "pitch_mm": ("belt",),
        "path_mm": ("belt",),
    }.items():
        if getattr(hardware, key) is not None and hardware.kind not in kinds:
            table.refuse(key, f"a {hardware.kind} has none", f"leave it out, or check kind: {listed(kinds, 'or')}")
    parts = [one.part for one in hardware.other_bores]
    for part in parts:
        if part not in hardware.joins or parts.count(part) > 1:
            wrong = f"'{part}' is not among joins" if part not in hardware.joins else f"'{part}' stands there twice"
            table.refuse("other_bores", wrong, "name each part once that it goes through and where its bore differs")
    if hardware.pilot_mm is not None and hardware.joins[-1] in parts:
        table.refuse("other_bores", "pilot_mm tells the last part's bore already", "leave one of the two out")
    if hardware.kind == "bearing" and hardware.size_mm is None:
        table.refuse("size_mm", "a bearing's outside is not stated", "write size_mm = 22.0, its outside diameter")


def read_gaps(table: Table) -> tuple[Gap, ...]:
    """Read every ``[[gap]]``."""
    gaps = []
    for each in table.tables("gap"):
        between, drawn_mm = _pair(each), each.number_or_none("drawn_mm", high=100.0)
        gaps.append(Gap(between=between, drawn_mm=drawn_mm, guessed=each.guessed()))
        each.done()
    return tuple(gaps)


def read_left_open(table: Table) -> tuple[LeftOpen, ...]:
    """Read every ``[[open]]``: openings that nothing goes through."""
    found = []
    for each in table.tables("open"):
        one = LeftOpen(
            name=each.text("name"),
            parts=each.texts("parts", least=1),
            bore_mm=each.number_or_none("bore_mm", high=500.0, above=True),
            slot_mm=each.number_or_none("slot_mm", high=1000.0, above=True),
            bores=each.word("bores", BORE_ENDS) if each.has("bores") else None,
            guessed=each.guessed(),
        )
        each.done()
        if (one.bore_mm is None) == (one.slot_mm is None):
            each.refuse("bore_mm", "either a bore or a slot is meant", "write bore_mm = 20.0, or slot_mm = 40.0")
        found.append(one)
    return tuple(found)


def _pair(table: Table) -> tuple[str, str]:
    """Read ``between``: two different parts."""
    between = table.texts("between", least=2)
    if len(between) != 2 or between[0] == between[1]:
        table.refuse("between", "two different parts are needed", 'write between = ["deck", "jaw"]')
    return between[0], between[1]


def read_cords(table: Table) -> tuple[Cord, ...]:
    """Read every ``[[cord]]``."""
    return tuple(_cord(each) for each in table.tables("cord"))


def _cord(table: Table) -> Cord:
    """Read one cord."""
    cord = Cord(
        name=table.text("name"),
        part=table.text("part"),
        diameter_mm=table.number("diameter_mm", low=THIN_LEAST_MM, high=50.0),
        kind=table.word("kind", ("braided", "elastic"), "braided"),
        channel_mm=table.number_or_none("channel_mm", high=100.0, above=True),
        path_mm=table.number_or_none("path_mm", high=1e5),
        bends_deg=table.number_or("bends_deg", 0.0, high=36000.0),
        force_n=table.number_or_none("force_n", high=1000.0),
        count=table.count("count", 1),
        lever=table.number_or_none("lever", high=100.0, above=True),
        path=read_path(table),
        drives=table.text("drives", ""),
        drawn_from=table.text("from", ""),
        grip_at_mm=table.vector("grip_at_mm") if table.has("grip_at_mm") else None,
        equaliser=table.word("equaliser", EQUALISERS) if table.has("equaliser") else None,
        rate_n_per_mm=table.number_or_none("rate_n_per_mm", high=1000.0, above=True),
        friction=table.number_or_none("friction", low=FRICTION_LEAST, high=2.0),
        slack_mm=table.number_or("slack_mm", 0.0, high=1000.0),
        guessed=table.guessed(),
    )
    table.done()
    return cord


def read_straps(table: Table) -> tuple[Strap, ...]:
    """Read every ``[[strap]]``."""
    straps = []
    for each in table.tables("strap"):
        straps.append(
            Strap(
                name=each.text("name"),
                part=each.text("part"),
                webbing_mm=each.number("webbing_mm", high=500.0, above=True),
                slot_mm=each.number_or_none("slot_mm", high=1000.0, above=True),
                around_mm=each.number_or_none("around_mm", high=10_000.0),
                count=each.count("count", 1),
                guessed=each.guessed(),
            )
        )
        each.done()
    return tuple(straps)


def read_paddings(table: Table, base: Path) -> tuple[Padding, ...]:
    """Read every ``[[padding]]``; its area is stated, or an outline file is named."""
    paddings = []
    for each in table.tables("padding"):
        padding = Padding(
            part=each.text("part"),
            thickness_mm=each.number("thickness_mm", high=200.0, above=True),
            area_mm2=each.number_or_none("area_mm2", high=1e8),
            outline=base / each.text("outline") if each.has("outline") else None,
            ease_mm=each.number_or("ease_mm", 0.0, high=50.0),
        )
        each.done()
        if padding.area_mm2 is None and padding.outline is None:
            each.refuse("area_mm2", "neither area_mm2 nor outline is stated", "write area_mm2 = 14500.0")
        if padding.outline is not None and not is_there(padding.outline):
            told = f"there is no file {padding.outline.name}"
            each.refuse("outline", told, "check the path, it is relative to the job file")
        paddings.append(_outlined(padding))
    return tuple(paddings)


def _outlined(padding: Padding) -> Padding:
    """Return the padding with its outline read; the outline's own area then holds, whatever is stated."""
    if padding.outline is None:
        return padding
    rings = read_outline(padding.outline)
    return replace(padding, rings_mm=rings, area_mm2=area_mm2(rings))

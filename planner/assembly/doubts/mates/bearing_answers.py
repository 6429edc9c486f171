"""Bearings and inserts, told by the sizes that they are sold in: a bearing by outside, width and shoulder."""

from __future__ import annotations

from planner.assembly.doubts.answer_edits import Answer
from planner.job import Hardware, HardwareTables, LeftOpen, StockSize
from planner.survey import Bore

ROOM_MM = (-0.1, 0.6)
"""A bearing's seat is drawn this much wider than the bearing; common practice, no source."""
WIDTH_MM = (-1.0, 2.0)
"""A seat is drawn this much deeper than the bearing is wide; common practice, no source."""
SHOULDER_SHARE = 0.25
"""The shoulder just clears the inner ring: this share of the way from a bearing's bore to its outside; no source."""
INSERT_NEAR_MM = 0.15
BEARING_FACTOR, INSERT_FACTOR = 2.0, 0.3
"""How well such a form speaks for a bearing, and for an insert, beside other answers; common practice, no source."""


def bearing_in(seat: Bore, below: Bore, tables: HardwareTables) -> StockSize | None:
    """Return the bearing that a step is drawn for, with a narrower bore below it; None where it is for none."""
    for stock in tables.bearings:
        if stock.outside_mm is None or stock.width_mm is None:
            continue
        bore, outside = stock.diameter_mm.value, stock.outside_mm.value
        shoulder = bore + SHOULDER_SHARE * (outside - bore)
        if (
            ROOM_MM[0] <= seat.drawn_diameter_mm - outside <= ROOM_MM[1]
            and WIDTH_MM[0] <= seat.depth_mm - stock.width_mm.value <= WIDTH_MM[1]
            and shoulder <= below.drawn_diameter_mm
        ):
            return stock
    return None


def bearing_answer(
    stock: StockSize, size_mm: float, parts: tuple[str, ...], count: int, below: tuple[LeftOpen, ...]
) -> Answer:
    """Return the answer that a bearing sits in seats of one size; the bores below them stay open."""
    assert stock.outside_mm is not None
    bearing = Hardware(
        name=f"bearing {stock.label} in {size_mm:g} mm",
        kind="bearing",
        diameter_mm=stock.diameter_mm.value,
        size_mm=stock.outside_mm.value,
        joins=parts,
        bore_mm=size_mm,
        fit="held",
        count=count,
    )
    return Answer(
        name=f"{stock.label.replace(' ', '').replace('×', 'x')}-bearing",
        text=f"a bearing {stock.label} sits in it",
        weight_factor=BEARING_FACTOR,
        hardware=(bearing,),
        left_open=below,
    )


def insert_answers(
    size_mm: float, depth_mm: float, parts: tuple[str, ...], count: int, tables: HardwareTables, *, blind: bool
) -> list[Answer]:
    """Return the threaded inserts that bores of one size are drawn for."""
    found = []
    for stock in tables.inserts:
        near = any(abs(bore.value - size_mm) <= INSERT_NEAR_MM for bore in stock.bores_mm)
        if not near or stock.width_mm is None or depth_mm < 0.8 * stock.width_mm.value:
            continue
        insert = Hardware(
            name=f"insert {stock.label} in {'blind ' if blind else ''}{size_mm:g} mm",
            kind="insert",
            diameter_mm=stock.diameter_mm.value,
            joins=parts,
            bore_mm=size_mm,
            fit="held",
            count=count,
        )
        found.append(
            Answer(
                name=f"{stock.label.lower()}-insert",
                text=f"an insert for {stock.label} is pressed in",
                weight_factor=INSERT_FACTOR * (2.0 if blind else 0.5),
                hardware=(insert,),
            )
        )
    return found

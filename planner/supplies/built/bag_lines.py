"""The lines of the bag list: every piece as built, with its length, its price, and what goes with it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from planner.assembly import SCREWS
from planner.finding import Finding, Work
from planner.job import Job, StockSize
from planner.supplies.built.bench_work import works_on
from planner.supplies.built.built_sizes import Piece, nearest_stock
from planner.supplies.built.stock_lengths import Stacked, length_of
from planner.supplies.supplies import HardwareLine

SPARE_FOR_EACH = 10
"""One spare for every ten pieces of a small thing that is easily lost; common practice, no source."""
SMALL = (*SCREWS, "nut", "washer", "insert", "dowel-pin")
NO_LENGTH = ("nut", "washer", "insert", "bearing")
BEARING_SHARE = 0.66
"""Steel in the ring that a bearing fills: 8 x 22 x 7 weighs 12 g (from memory), as a full ring 18 g."""


def lines_of(job: Job, pieces: Sequence[Piece], factor: float, findings: Sequence[Finding]) -> tuple[HardwareLine, ...]:
    """Return one line for each piece, then those of free nuts, washers and bushes."""
    lines = [_line(job, piece, factor, findings) for piece in pieces]
    for piece in pieces:
        lines += _with_screw(job, piece)
        lines += _bushes(job, piece, findings)
    return tuple(sorted(lines, key=lambda line: place_of(job, line)))


def place_of(job: Job, line: HardwareLine) -> tuple[bool, int, int, int, str]:
    """Return where a line stands in the list: the job's own first, then what goes with each of them."""
    names = [hardware.name for hardware in job.hardware]
    parts = [part.name for part in job.parts]
    if not line.goes_with:
        return False, names.index(line.name), 0, 0, ""
    bush = line.kind == "bush"
    rank = ("nut", "washer", "bush").index(line.kind)
    return True, names.index(line.goes_with), rank, parts.index(line.for_parts[0]) if bush else 0, line.name


def _line(job: Job, piece: Piece, factor: float, findings: Sequence[Finding]) -> HardwareLine:
    """Return the line of one piece that the job names."""
    hardware = piece.hardware
    length, why = _length(piece, factor)
    if piece.changed:
        why = f"{_size(piece)} instead of {_label(job, piece)}: {piece.because}; {why}"
    if hardware.printed:
        why = f"printed as {hardware.printed}: nothing is bought"
    if "count" in hardware.guessed and "kind" not in hardware.guessed:
        why += "; their number is counted from bores, nobody has stated it"
    told: Mapping[str, None] = dict.fromkeys(
        f"{finding.part}: {finding.remedy}" for finding, _ in works_on(hardware.name, findings)
    )
    return HardwareLine(
        name=hardware.name,
        kind=hardware.kind,
        size=_size(piece),
        diameter_mm=hardware.seated_mm,
        length_mm=None if hardware.printed else length,
        count=hardware.count,
        spares_n=0 if hardware.printed else spares(hardware.kind, hardware.count),
        for_parts=hardware.joins,
        why=why,
        price=_price(job, piece, "locking-nut" if piece.locking else hardware.kind),
        work="; ".join(told),
        instead_of=_label(job, piece) if piece.changed else "",
        printed=hardware.printed,
        steel_mm3=_ring_mm3(piece.stock) if hardware.kind == "bearing" else None,
    )


def _ring_mm3(stock: StockSize | None) -> float | None:
    """Return the steel in a bearing: so much of the ring from its bore to its outside; None where no size is known."""
    if stock is None or stock.outside_mm is None or stock.width_mm is None:
        return None
    ring_mm2 = math.pi / 4 * (stock.outside_mm.value**2 - stock.diameter_mm.value**2)
    return BEARING_SHARE * ring_mm2 * stock.width_mm.value


def _size(piece: Piece) -> str:
    """Return the size of a piece as built, as the trade calls it."""
    hardware, stock = piece.hardware, piece.stock
    if hardware.kind == "belt":
        pitch = "round" if hardware.pitch_mm is None else f"{hardware.pitch_mm:g} mm pitch"
        return (
            f"{pitch}, {hardware.diameter_mm:g} mm wide" if hardware.pitch_mm else f"{hardware.diameter_mm:g} mm, round"
        )
    label = stock.label if stock else f"{hardware.diameter_mm:g} mm"
    if hardware.kind == "bearing" and stock is None:
        label = f"{hardware.diameter_mm:g} × {hardware.seated_mm:g}"
    return f"{label} locking" if piece.locking else label


def _label(job: Job, piece: Piece) -> str:
    """Return the size that the job states."""
    stock = nearest_stock(job.tables, piece.stated)
    return stock.label if stock else f"{piece.stated.diameter_mm:g} mm"


def _length(piece: Piece, factor: float) -> tuple[float | None, str]:
    """Return the length of a piece and how it comes about."""
    hardware = piece.hardware
    if hardware.kind == "belt":
        return _belt_length(piece, factor)
    if hardware.kind in NO_LENGTH:
        return None, "keeps its size at every scale" + (", locking: something turns on its screw" * piece.locking)
    return length_of(hardware, piece.stock, factor, _on_it(piece))


def _belt_length(piece: Piece, factor: float) -> tuple[float | None, str]:
    """Return the length of a belt's loop: of a toothed one a whole number of teeth, not longer than its way."""
    hardware = piece.hardware
    if hardware.path_mm is None:
        return None, "no length, as path_mm is not stated: measure its way round the pulleys as printed"
    need = hardware.path_mm * factor
    told = f"{hardware.path_mm:g} mm × {factor:.3f} = {need:.1f} mm"
    if hardware.pitch_mm is None:
        return need, f"{told}; a round belt is joined to length, a little shorter so that it is taut"
    teeth = 0
    while (teeth + 1) * hardware.pitch_mm <= need + 1e-9:
        teeth += 1
    length = teeth * hardware.pitch_mm
    return length, f"{told} → {teeth} teeth, {length:.1f} mm: look for that loop, and leave room to tension it"


def _on_it(piece: Piece) -> Stacked:
    """Return what lies on a screw beside the parts it goes through."""
    hardware, stock, held = piece.hardware, piece.stock, piece.held
    if held is None:
        return Stacked()
    if held.cuts_thread:
        return Stacked(washers_n=_washers_n(piece), washer_mm=_thick(stock), blind=True)
    nut = next((one for one in held.by if one.kind == "nut"), None)
    if hardware.nut is None and nut is None:
        return Stacked(washers_n=_washers_n(piece), washer_mm=_thick(stock))
    name, high = nut_mm(stock, locking=is_locking(piece))
    return Stacked(washers_n=_washers_n(piece), washer_mm=_thick(stock), nut_mm=high, nut=name)


def is_locking(piece: Piece) -> bool:
    """Return whether the nut of a screw must lock: where something turns on it, or where the job says so."""
    return piece.hardware.nut == "locking" or (piece.held is not None and piece.held.turns)


def nut_mm(stock: StockSize | None, *, locking: bool) -> tuple[str, float]:
    """Return what a nut is called and the thread that it takes, in mm.

    A locking nut's thread must come through it by a pitch; where none is listed, two nuts lock each other.
    """
    if stock is None or stock.nut_height_mm is None:
        return "nut", 0.0
    if not locking:
        return "nut", stock.nut_height_mm.value
    pitch = stock.pitch_mm.value if stock.pitch_mm else 0.0
    if stock.locking_height_mm is None:
        return "two nuts", 2 * stock.nut_height_mm.value + pitch
    return "locking nut and one pitch of thread past it", stock.locking_height_mm.value + pitch


def _thick(stock: StockSize | None) -> float:
    """Return the thickness of a washer."""
    return stock.washer_thick_mm.value if stock and stock.washer_thick_mm else 0.0


def _washers_n(piece: Piece) -> int:
    """Return how many washers lie on one screw: one under the head, one under a free nut, unless stated."""
    hardware, held = piece.hardware, piece.held
    if hardware.washers is not None:
        return hardware.washers
    if hardware.kind != "machine-screw" or held is None:
        return 0
    return 1 + (hardware.nut is not None)


def _with_screw(job: Job, piece: Piece) -> list[HardwareLine]:
    """Return the lines of a screw's free nuts and washers."""
    hardware, found = piece.hardware, []
    if piece.held is None:
        return []
    if hardware.nut is not None:
        locking = is_locking(piece)
        twice = locking and (piece.stock is None or piece.stock.locking_height_mm is None)
        why = "something turns on it, and a plain nut would work loose" if piece.held.turns else "on the last part"
        found.append(
            _beside(
                piece,
                what="nut",
                kind="nut",
                count=hardware.count * (2 if twice else 1),
                size=" locking" if locking and not twice else "",
                why=why + ("; two lock each other" if twice else ""),
                price=job.tables.prices.get("locking-nut" if locking and not twice else "nut"),
            )
        )
    named = any(
        one.kind == "washer" and set(one.joins) & set(hardware.joins) and one.diameter_mm == piece.stated.diameter_mm
        for one in job.hardware
    )
    if _washers_n(piece) and not named:
        where = "under the head" if _washers_n(piece) == 1 else "under head and nut"
        found.append(
            _beside(
                piece,
                what="washer",
                kind="washer",
                count=hardware.count * _washers_n(piece),
                why=f"{where}; leave it out where a head or nut is sunk",
                price=job.tables.prices.get("washer"),
            )
        )
    return found


def _bushes(job: Job, piece: Piece, findings: Sequence[Finding]) -> list[HardwareLine]:
    """Return the lines of the bushes that the check asks for, one for the bores of a part that are drawn alike."""
    counts = {part.name: part.count for part in job.parts}
    found: dict[tuple[str, str], list[Work]] = {}
    for finding, work in works_on(piece.hardware.name, findings):
        if work.kind == "bush":
            drawn = finding.feature.rpartition("(")[2].rstrip(")")
            found.setdefault((finding.part, drawn), []).append(work)
    return [
        HardwareLine(
            name=f"bush for {piece.hardware.name} in {part}, {drawn} bores",
            kind="bush",
            size=f"{works[0].outside_mm:.2f} mm outside, bored {works[0].bored_mm:.2f} mm",
            diameter_mm=piece.hardware.diameter_mm,
            length_mm=None,
            count=counts.get(part, 1) * len(works),
            spares_n=0,
            for_parts=(part,),
            why="the bore is too wide for it; as long as the part is thick there",
            price=None if (each := job.tables.prices.get("bush")) is None else each * counts.get(part, 1) * len(works),
            goes_with=piece.hardware.name,
        )
        for (part, drawn), works in found.items()
    ]


def _beside(
    piece: Piece, *, what: str, kind: str, count: int, why: str, price: float | None, size: str = ""
) -> HardwareLine:
    """Return a line of something that goes with a screw, in the screw's size."""
    spares_n = spares(kind, count)
    return HardwareLine(
        name=f"{what} for {piece.hardware.name}",
        kind=kind,
        size=(piece.stock.label if piece.stock else f"{piece.hardware.diameter_mm:g} mm") + size,
        diameter_mm=piece.hardware.diameter_mm,
        length_mm=None,
        count=count,
        spares_n=spares_n,
        for_parts=piece.hardware.joins,
        why=why,
        price=None if price is None else price * (count + spares_n),
        goes_with=piece.hardware.name,
    )


def _price(job: Job, piece: Piece, key: str) -> float | None:
    """Return the price of all pieces and their spares; nothing for what is printed."""
    hardware = piece.hardware
    if hardware.printed:
        return 0.0
    each = hardware.price_each if hardware.price_each is not None else job.tables.prices.get(key)
    return None if each is None else each * (hardware.count + spares(hardware.kind, hardware.count))


def spares(kind: str, count: int) -> int:
    """Return how many spares are bagged with so many pieces.

    >>> spares("nut", 4), spares("nut", 14), spares("bearing", 2)
    (1, 2, 0)
    """
    return math.ceil(count / SPARE_FOR_EACH) if kind in SMALL else 0

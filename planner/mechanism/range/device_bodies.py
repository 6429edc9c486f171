"""The bodies that may meet while a device moves: parts in place, and the hardware that keeps its size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import manifold3d
import numpy as np

from planner.assembly import head_mm
from planner.finding import Vec3
from planner.job import Hardware, HardwareTables, Job, PartScale, StockSize, part_of
from planner.mechanism.joints.bore_stacks import BoreStack, span_mm
from planner.mechanism.mechanism import Mechanism
from planner.mechanism.places.frame import Frame
from planner.mechanism.range.axis_shells import Reach, along, reach_mm
from planner.mechanism.range.boxes_on_way import Floats, box_of
from planner.mesh import Solid

THROUGH = ("machine-screw", "wood-screw", "binding-post", "dowel-pin")
SAME_SIZE_MM = 0.15
SIDES_N = 32
ENDS = "head or nut of"
"""What lies on either end of a screw is called this and the screw's name."""
BETWEEN = "washer on"
"""A stated washer that may lie between two parts is called this and the name of what goes through it."""
WIDE_THICK_RATIO = 0.27
"""A washer wider than the usual is so thick, by its bore: no less than ISO 7093-1 from M3 to M8 (0.8, 1, 1.2, 1.6 and
2 mm; from memory)."""


@dataclass(frozen=True, kw_only=True, eq=False)  # no slots: its box is found once; bodies do not compare
class Body:
    """A body at its drawn place.

    Parameters
    ----------
    name
        Of the copy, or of the hardware.
    group
        Number of the rigid body that it moves with.
    shape
        In the device's frame.
    through
        Of hardware: the copies on its axis, about which it is round: turning on it, they cannot meet it.
    guessed
        Whether its size is usual and not stated (heads, nuts and washers, and which end has which), or the angle at
        which it stands is not known.
    fixed
        Whether it keeps its size while the device grows.
    soft
        Whether it is a cord or padding, which gives way a little.
    ends
        Of a cord between two bodies, their numbers: it is a body only while these do not move on each other.
    """

    name: str
    group: int
    shape: manifold3d.Manifold
    through: frozenset[str] = frozenset()
    guessed: bool = False
    fixed: bool = False
    soft: bool = False
    ends: frozenset[int] = frozenset()
    made: tuple[object, ...] = ()
    """All that its shape was made from; empty: only its corners tell."""
    reaches: dict[bytes, Reach] = field(default_factory=dict)
    """How far it reaches along and from an axis, by the axis."""

    @cached_property
    def box_mm(self) -> Floats:
        """The least and the greatest corner of its box (2, 3)."""
        return box_of(self.shape)

    def reach_mm(self, frame: Frame) -> Reach:
        """Return how far it reaches along and from z of a frame."""
        key = frame.matrix().tobytes()
        if key not in self.reaches:
            self.reaches[key] = reach_mm(self.shape, frame)
        return self.reaches[key]


def device_bodies(
    job: Job,
    solids: Mapping[str, Solid],
    mechanism: Mechanism,
    factor: float,
    known: dict[str | float, tuple[Body, ...]] | None = None,
) -> tuple[tuple[Body, ...], tuple[str, ...]]:
    """Return all bodies in the drawn frame for a size (1.0 as drawn), and the copies that cannot be tried.

    What keeps its size is smaller in the drawn frame by the factor. ``known`` keeps them, those that grow by their copy
    and all others by the size: what was found of a body need not be found again.
    """
    had = {} if known is None else known
    number = {copy: n for n, group in enumerate(mechanism.groups) for copy in group}
    bodies: list[Body] = []
    unsound: list[str] = []
    for copy, frame in mechanism.frames.items():
        shape = solids[part_of(copy)].manifold
        if shape is None:
            unsound.append(copy)
            continue
        own = own_factors(job.part(part_of(copy)).scale_percent, factor)
        if own == (1.0, 1.0, 1.0) and copy in had:
            bodies += had[copy]
            continue
        grown = shape if own == (1.0, 1.0, 1.0) else shape.scale(own)
        shape, loose = grown.transform(frame.matrix()), copy in mechanism.placed.free
        keeps = job.part(part_of(copy)).scale_percent is not None
        bodies.append(Body(name=copy, group=number[copy], shape=shape, guessed=loose, fixed=keeps))
        if own == (1.0, 1.0, 1.0):
            had[copy] = (bodies[-1],)
    if factor not in had:
        had[factor] = tuple(one for stack in mechanism.stacks for one in _hardware(job, stack, number, factor))
    bodies += had[factor]
    return tuple(bodies), tuple(unsound)


def own_factors(percent: PartScale, factor: float) -> Vec3:
    """Return how much larger along x, y, z a part is in the drawn frame that does not follow the job's scale.

    >>> own_factors(100.0, 2.0), own_factors(None, 2.0)
    ((0.5, 0.5, 0.5), (1.0, 1.0, 1.0))
    """
    if percent is None:
        return 1.0, 1.0, 1.0
    x, y, z = percent if isinstance(percent, tuple) else (percent, percent, percent)
    return x / 100.0 / factor, y / 100.0 / factor, z / 100.0 / factor


def _hardware(job: Job, stack: BoreStack, number: Mapping[str, int], factor: float) -> Iterator[Body]:
    """Yield the pin of a stack, and what lies on its ends, as round bodies."""
    pin = stack.pin
    if pin.kind not in THROUGH or pin.printed or len(stack.copies) + len(stack.slots) < 2:
        return
    base = stack.bores[0].bore
    low, high = stack.ends_mm
    frame = along(base.axis, base.centre_mm).matrix()
    placed = frame.tobytes()
    holding = [one.copy for one in stack.bores if not one.turning]
    joined = [copy for part in pin.joins for copy in stack.copies if part_of(copy) == part]
    owner = (holding or joined or list(stack.copies))[0]
    shank = _round(pin.diameter_mm / 2 / factor, low, high)
    on_it = frozenset(stack.copies)
    made = (pin.diameter_mm / 2 / factor, low, high, placed)
    shape = shank.transform(frame)
    yield Body(name=pin.name, group=number[owner], shape=shape, through=on_it, fixed=True, made=made)
    loose = _stated_washers(job, pin)
    ends = end_round_mm(pin, job.tables, loose)
    open_low, open_high = _open_ends(stack)
    rounds = list[tuple[float, float, float]]()
    for radius, thick in ends:
        r, t = radius / factor, thick / factor
        rounds += [(r, low - t, low)] if open_low else []
        rounds += [(r, high, high + t)] if open_high else []
    wide = max((radius for radius, _ in loose), default=0.0) / factor
    between = [(wide, begins, until) for begins, until in _gaps(stack) if wide]
    for what, pieces in ((ENDS, rounds), (BETWEEN, between)):
        if pieces:
            whole = manifold3d.Manifold.batch_boolean([_round(*one) for one in pieces], manifold3d.OpType.Add)
            yield Body(
                name=f"{what if pin.kind != 'dowel-pin' else BETWEEN} {pin.name}",
                group=number[owner],
                shape=whole.transform(frame),
                through=on_it,
                guessed=True,
                fixed=True,
                made=(*pieces, placed),
            )


def _stated_washers(job: Job, pin: Hardware) -> tuple[tuple[float, float], ...]:
    """Return radius and thickness of every washer that the job lists for a part of a pin, on its diameter.

    One that is listed for all of several parts lies on what goes through all of them, where something does.
    """
    found = []
    for one in job.hardware:
        if one.kind != "washer" or pin not in _going_through(job, one):
            continue
        stock = _stock(job.tables, one)
        usual, thick = _value(stock, "washer_mm"), _value(stock, "washer_thick_mm")
        wide = one.size_mm or usual
        if wide:
            thicker = WIDE_THICK_RATIO * one.diameter_mm if wide > usual + SAME_SIZE_MM else 0.0
            found.append((wide / 2, max(thick, thicker)))
    return tuple(found)


def _going_through(job: Job, washer: Hardware) -> list[Hardware]:
    """Return what may go through a washer: what joins all of its parts, else what joins one."""
    fits = [
        one for one in job.hardware if one.kind in THROUGH and abs(one.diameter_mm - washer.diameter_mm) <= SAME_SIZE_MM
    ]
    parts = set(washer.joins)
    return [one for one in fits if parts <= set(one.joins)] or [one for one in fits if parts & set(one.joins)]


def _gaps(stack: BoreStack) -> list[tuple[float, float]]:
    """Return where nothing lies between two bores of a stack that follow each other: a washer may."""
    spans = sorted(span_mm(stack.bores[0].bore, one.bore) for one in stack.bores)
    spans = sorted([*spans, *((low, high) for _, low, high, _ in stack.slots)])
    found, top = [], spans[0][1]
    for low, high in spans[1:]:
        found += [(top, low)] if low - top > SAME_SIZE_MM else []
        top = max(top, high)
    return found


def _open_ends(stack: BoreStack) -> tuple[bool, bool]:
    """Return at which ends of a stack something may lie: a blind bore holds the tip, and the head is at the other."""
    spans = [(span_mm(stack.bores[0].bore, one.bore), one.bore.through) for one in stack.bores]
    low, high = min(spans, key=lambda one: one[0][0])[1], max(spans, key=lambda one: one[0][1])[1]
    return (low, high) if low or high else (True, True)


def end_round_mm(
    pin: Hardware, tables: HardwareTables, stated: Sequence[tuple[float, float]] = ()
) -> tuple[tuple[float, float], ...]:
    """Return radius and height of what lies at either end of a pin: washer, and the larger of head and nut.

    ``stated`` are radius and thickness of washers that the job lists; the widest and the thickest count. Which end has
    the head is not known. Heads of machine screws by ISO 4762 (1.5 d + 1 wide, d high); those of wood
    screws and binding posts by the hardware tables, of a size between those listed in proportion. Pins have none.
    """
    if pin.kind in ("wood-screw", "binding-post"):
        near = min(tables.sizes(pin.kind), key=lambda s: abs(s.diameter_mm.value - pin.diameter_mm), default=None)
        grown = pin.diameter_mm / near.diameter_mm.value if near else 0.0
        wide, tall = grown * _value(near, "head_mm"), grown * _value(near, "head_high_mm")
        return ((wide / 2, tall),) if wide and tall else ()
    on_it = ((max(r for r, _ in stated), max(t for _, t in stated)),) if stated else ()
    if pin.kind != "machine-screw":
        return on_it
    stock = _stock(tables, pin)
    locking = pin.nut == "locking" or (pin.nut is not None and pin.turns)
    flats = _value(stock, "nut_flats_mm") if pin.nut else 0.0
    nut = _value(stock, "locking_height_mm" if locking else "nut_height_mm") if pin.nut else 0.0
    found = [(max(head_mm(pin.diameter_mm) / 2, flats / 2 / np.cos(np.pi / 6)), max(pin.diameter_mm, nut))]
    washer, thick = _value(stock, "washer_mm"), _value(stock, "washer_thick_mm")
    under = on_it or (((washer / 2, thick),) if washer and pin.washers != 0 else ())
    if under:
        found = [*under, (found[0][0], found[0][1] + under[0][1])]
    return tuple((float(radius), float(height)) for radius, height in found)


def _stock(tables: HardwareTables, pin: Hardware) -> StockSize | None:
    """Return the stock size of a pin."""
    near = min(tables.sizes(pin.kind), key=lambda s: abs(s.diameter_mm.value - pin.diameter_mm), default=None)
    return near if near and abs(near.diameter_mm.value - pin.diameter_mm) <= SAME_SIZE_MM else None


def _value(stock: StockSize | None, key: str) -> float:
    """Return a length of a stock size; 0 where the tables do not list it."""
    found = getattr(stock, key) if stock else None
    return float(found.value) if found else 0.0


def _round(radius_mm: float, low_mm: float, high_mm: float) -> manifold3d.Manifold:
    """Return a cylinder about z."""
    return manifold3d.Manifold.cylinder(high_mm - low_mm, radius_mm, radius_mm, SIDES_N).translate((0, 0, low_mm))

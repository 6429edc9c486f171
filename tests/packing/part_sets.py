"""Twelve part sets as bed problems: six of ours, seeded, and six classic instances; and the boxes that rectpack packs."""

from __future__ import annotations

import json

import numpy as np
import rectpack
import shapely
import shapely.affinity

from planner.job import Bed
from planner.layers import Amount
from planner.packing import Group, Item, Placement, Plate
from tests.shapes import DATA

GROUP = Group(material="petg", colour="green", support=False, brim_mm=0.0)
BED = Bed(shape="rectangle", size_mm=(220.0, 220.0), height_mm=240.0, margin_mm=5.0)
CLASSIC = ("albano", "dagli", "fu", "marques", "shirts", "swim")
BEDS_WORTH = 2.3
"""Outline area of a set over that of the usable bed, so that several plates are needed."""


def item_of(part: str, shape: shapely.Polygon, copies: int = 1, *, in_opening: bool = False) -> Item:
    """Return an item of any polygon."""
    rings = [shape.exterior, *shape.interiors]
    return Item(
        part=part,
        copies=copies,
        rings=tuple(tuple((float(x), float(y)) for x, y in list(ring.coords)[:-1]) for ring in rings),
        group=GROUP,
        in_opening=in_opening,
    )


def one_plate(placements: tuple[Placement, ...]) -> Plate:
    """Return the only plate of a plan, with copies at their places."""
    amount = Amount(value=1.0, low=1.0, high=1.0)
    return Plate(
        number=1,
        group=GROUP,
        placements=placements,
        duration_s=amount,
        kinds_s={},
        mass_g=None,
        height_mm=5,
        fill=0.1,
        file="plates/plate-01.3mf",
    )


def own_set(seed: int) -> list[Item]:
    """Return hooks, brackets, sectors, wedges, bars and blobs such as a device is made of, in mm."""
    rng = np.random.default_rng(seed)
    items: list[Item] = []
    area = 0.0
    while area < BEDS_WORTH * 210.0**2:
        a, b = rng.uniform(35, 95), rng.uniform(30, 80)
        t = rng.uniform(0.18, 0.35) * min(a, b)
        kind = int(rng.integers(6))
        if kind == 0:
            shape = shapely.Polygon([(0, 0), (a, 0), (a, t), (t, t), (t, b), (0, b)])
        elif kind == 1:
            shape = shapely.box(0, 0, a, b).difference(shapely.box(t, t, a - t, b + 1))
        elif kind == 2:
            ring = shapely.Point(0, 0).buffer(a / 2, quad_segs=8).difference(shapely.Point(0, 0).buffer(a / 2 - t))
            shape = ring.intersection(shapely.box(-a, -t / 2, a, a))
        elif kind == 3:
            shape = shapely.Polygon([(0, 0), (a, 0), (a * rng.uniform(0, 1), b)])
        elif kind == 4:
            shape = shapely.Polygon([(0, 0), (1.4 * a, 0), (1.2 * a, t), (0.3 * a, 1.6 * t), (0, b)])
        else:
            angle = np.sort(rng.uniform(0, 2 * np.pi, 9))
            reach = rng.uniform(0.35, 1.0, 9) * b / 2
            shape = shapely.Polygon(np.column_stack([reach * np.cos(angle), reach * np.sin(angle)])).buffer(2.0)
        shape = shapely.Polygon(shape.exterior).simplify(0.2)
        copies = int(rng.integers(1, 4))
        items.append(item_of(f"p{len(items)}", shape, copies))
        area += copies * shape.area
    return items


def classic_set(name: str) -> list[Item]:
    """Return a classic strip instance scaled so that it needs several beds (ESICUP, CC0)."""
    instances = json.loads((DATA / "nesting" / "classic_instances.json").read_text(encoding="utf-8"))["instances"]
    pieces = next(each["pieces"] for each in instances if each["id"] == name)
    demand = {f"{name} {k}": int(piece["demand"]) for k, piece in enumerate(pieces)}
    shapes = {f"{name} {k}": shapely.Polygon(piece["polygon"]) for k, piece in enumerate(pieces)}
    total = sum(demand[part] * shape.area for part, shape in shapes.items())
    by = (BEDS_WORTH * 210.0**2 / total) ** 0.5
    return [
        item_of(part, shapely.affinity.scale(shape, by, by, origin=(0.0, 0.0)), demand[part])
        for part, shape in shapes.items()
    ]


def boxes(items: list[Item], spacing_mm: float, bed: Bed = BED) -> list[float]:
    """Return the fill of each plate that rectpack needs for the least boxes, grown by the spacing as the bed is."""
    packer = rectpack.newPacker(rotation=True)
    areas = {}
    for item in items:
        shape = shapely.Polygon(item.rings[0], item.rings[1:])
        ring = np.asarray(shapely.minimum_rotated_rectangle(shape).exterior.coords)
        sides = np.linalg.norm(np.diff(ring[:3], axis=0), axis=1)
        for copy in range(item.copies):
            areas[item.part, copy] = float(shape.area)
            packer.add_rect(*(int(np.ceil(100 * (side + spacing_mm))) for side in sides), (item.part, copy))
    usable = bed.usable_mm
    packer.add_bin(*(int(100 * (side + spacing_mm)) for side in usable), float("inf"))
    packer.pack()
    fills = [0.0] * len(packer)
    for number, _, _, _, _, name in packer.rect_list():
        fills[number] += areas[name] / (usable[0] * usable[1])
    assert len(packer.rect_list()) == len(areas)
    return sorted(fills, reverse=True)

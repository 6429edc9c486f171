"""Packing: every copy once, spacing and margins kept; the verifier finds what is planted, and records hold."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import rectpack
import shapely

from planner.job import Bed
from planner.mesh import placed, read_solid
from planner.packing import (
    Group,
    Item,
    PackedPlate,
    Placement,
    manifest,
    outline_of,
    pack,
    placed_outline,
    verify,
    verify_plate,
    write_plates,
)
from tests.packing.part_sets import BED, GROUP, one_plate
from tests.packing.record_layouts import record_places
from tests.shapes import DATA, Manifold, cuboid, cylinder, solid_of

ROUND = Bed(shape="circle", size_mm=(200.0, 200.0), height_mm=240.0, margin_mm=5.0)


def _box(part: str, x: float, y: float, copies: int = 1, group: Group = GROUP) -> Item:
    """Return a rectangular item."""
    ring = ((-x / 2, -y / 2), (x / 2, -y / 2), (x / 2, y / 2), (-x / 2, y / 2))
    return Item(part=part, copies=copies, rings=(ring,), group=group)


def _random_items(seed: int, n: int) -> list[Item]:
    """Return random convex outlines."""
    rng = np.random.default_rng(seed)
    items = []
    for k in range(n):
        points = rng.normal(size=(12, 2)) * rng.uniform(6, 22, 2)
        ring = list(shapely.convex_hull(shapely.multipoints(points)).exterior.coords)[:-1]
        items.append(Item(part=f"p{k}", copies=int(rng.integers(1, 3)), rings=(tuple(ring),), group=GROUP))
    return items


@pytest.mark.parametrize("seed", range(6))
def test_random_sets_are_packed_and_proved(seed: int) -> None:
    """On random sets the verifier, written apart, finds nothing; every copy lies on exactly one plate."""
    items = _random_items(seed, 10)
    packing = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0)

    assert not packing.unplaced
    assert verify(packing.plates, items, bed=BED, spacing_mm=4.0) == ()


def test_a_round_bed_is_packed_too() -> None:
    """On a round bed nothing reaches over the circle."""
    items = _random_items(7, 8)
    packing = pack(items, bed=ROUND, spacing_mm=4.0, seed=1, budget_s=2.0)

    assert not packing.unplaced
    assert verify(packing.plates, items, bed=ROUND, spacing_mm=4.0) == ()


def test_groups_never_share_a_plate_and_what_fits_nowhere_is_named() -> None:
    """Two colours are two plates; a part longer than the bed's diagonal is named, the rest is planned."""
    red = replace(GROUP, colour="red")
    items = [_box("a", 40, 30, 2), _box("b", 40, 30, 1, red), _box("long", 400, 10)]
    packing = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0)

    assert sorted(plate.group.colour for plate in packing.plates) == ["green", "red"]
    assert [part for part, _, _ in packing.unplaced] == ["long"]


def test_a_part_as_large_as_the_bed_fits_without_spacing_to_its_edge() -> None:
    """Spacing counts between parts only: 210 x 210 lies on a bed of 220 with margins of 5."""
    packing = pack([_box("full", 209.99, 209.99)], bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0)

    assert not packing.unplaced


def test_the_same_job_gives_the_same_plates(monkeypatch: pytest.MonkeyPatch, tmp_path: Any) -> None:
    """The accepted layout is kept under its content: a second plan is the same."""
    monkeypatch.setenv("FITWRIGHT_CACHE", str(tmp_path))
    items = _random_items(3, 6)

    assert pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0) == pack(
        items, bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0
    )


@pytest.mark.parametrize("seed", [11, 12])
def test_never_more_plates_than_boxes_need(seed: int) -> None:
    """Outside check: rectpack on bounding boxes, grown by the spacing, needs at least as many plates."""
    rng = np.random.default_rng(seed)
    items = [_box(f"p{k}", *rng.uniform(30, 90, 2)) for k in range(16)]
    packing = pack(items, bed=BED, spacing_mm=4.0, seed=1, budget_s=6.0)
    packer = rectpack.newPacker(rotation=True)
    for k, item in enumerate(items):
        x, y = np.ptp(np.array(item.rings[0]), axis=0)
        packer.add_rect(int(np.ceil(10 * (x + 4))), int(np.ceil(10 * (y + 4))), k)
    packer.add_bin(2140, 2140, float("inf"))
    packer.pack()

    assert len(packing.plates) <= len(packer)


def test_the_verifier_finds_planted_faults() -> None:
    """An overlap, too little spacing, a broken margin, a lost copy, a doubled one and a stranger are each named."""
    item = _box("a", 40, 30, 2)

    def wrong(*places: tuple[int, float, float], part: str = "a") -> str:
        placements = tuple(Placement(part=part, copy=c, x_mm=x, y_mm=y, turn_deg=0.0) for c, x, y in places)
        return " ".join(
            verify([PackedPlate(group=GROUP, placements=placements, fill=0.1)], [item], bed=BED, spacing_mm=4.0)
        )

    assert wrong((1, 100, 100), (2, 160, 100)) == ""
    assert "overlap" in wrong((1, 100, 100), (2, 130, 100))
    assert "lie 2.00 mm apart" in wrong((1, 100, 100), (2, 142, 100))
    assert "extends beyond" in wrong((1, 24, 100), (2, 160, 100))
    assert "lies on no plate" in wrong((1, 100, 100))
    assert "lies on 2 plates" in wrong((1, 100, 100), (1, 160, 100), (2, 100, 160))
    assert "one too many" in wrong((1, 100, 100), (2, 160, 100), (3, 100, 160))


RECORDS = json.loads((DATA / "nesting" / "record_layouts.json").read_text(encoding="utf-8"))["layouts"]


@pytest.mark.parametrize("layout", RECORDS, ids=lambda layout: layout["id"])
def test_record_layouts_hold_and_a_shifted_piece_does_not(layout: dict[str, Any]) -> None:
    """Outside check: the best known layouts (Gardeyn et al. 2025, arXiv 2509.13329) pass; a 1 % shift nearly always fails."""
    rings, bed, shapes, places = record_places(layout)

    # Records touch; a spacing of nothing must find no overlap beyond rounding.
    assert not [w for w in verify_plate(places, rings, bed=bed, spacing_mm=0.0) if "reaches" in w]
    overlaps = [a.intersection(b).area for i, a in enumerate(shapes) for b in shapes[i + 1 :]]
    assert max(overlaps) < 1e-2
    shifted = 0
    for k, place in enumerate(places):
        moved = [*places[:k], replace(place, x_mm=place.x_mm + 0.01 * layout["length"]), *places[k + 1 :]]
        outlines = [placed_outline(rings[p.part], p) for p in moved]
        hit = max(outlines[k].intersection(o).area for j, o in enumerate(outlines) if j != k)
        shifted += hit > 1e-2 or bool(verify_plate(moved, rings, bed=bed, spacing_mm=0.0))
    assert shifted >= len(places) - 1


def test_an_outline_is_the_shadow_with_its_holes() -> None:
    """A ring's shadow is a ring; a part's shadow has the area of its projection."""
    ring = outline_of(solid_of(cylinder(40, 5, 96) - cylinder(30, 9, 96).translate((0, 0, -1))))

    assert len(ring) == 2
    assert shapely.Polygon(ring[0], ring[1:]).area == pytest.approx(np.pi * (20**2 - 15**2), rel=2e-3)


def test_placements_mean_the_same_to_outlines_and_to_meshes() -> None:
    """The mesh placed by a placement has the box of the outline placed by it."""
    body = solid_of(Manifold.cube((30, 10, 5)) + Manifold.cube((10, 30, 5)))
    place = Placement(part="a", copy=1, x_mm=80.0, y_mm=60.0, turn_deg=33.0)
    outline, mesh = placed_outline(outline_of(body), place), placed(body, 80.0, 60.0, 33.0)

    assert outline.bounds == pytest.approx((*mesh.bounds_mm[0, :2], *mesh.bounds_mm[1, :2]), abs=0.05)


def test_plates_are_written_and_read_back(tmp_path: Any) -> None:
    """3MF and STL hold every copy at its place, on z = 0, and the manifest has their hashes."""
    places = tuple(Placement(part="a", copy=c, x_mm=40.0 * c, y_mm=50.0, turn_deg=0.0) for c in (1, 2))
    plate = one_plate(places)
    write_plates(tmp_path, (plate,), {"a": cuboid(20, 10, 5)})
    for ending in ("stl", "3mf"):
        read = read_solid(tmp_path / "plates" / f"plate-01.{ending}")
        assert read.volume_mm3 == pytest.approx(2000.0, rel=1e-5)
        assert read.bounds_mm == pytest.approx(np.array([[30, 45, 0], [90, 55, 5]]), abs=1e-3)

    assert json.loads(manifest(tmp_path, ("plates/plate-01.stl",)))["files"]["plates/plate-01.stl"]["bytes"] > 84


def test_small_parts_lie_in_the_opening_of_a_large_one_where_that_saves_a_plate() -> None:
    """A frame fills the bed; four covers go into its opening. Load parts, and parts with a brim, do not."""
    outer = ((-100.0, -100.0), (100.0, -100.0), (100.0, 100.0), (-100.0, 100.0))
    inner = ((-80.0, -80.0), (-80.0, 80.0), (80.0, 80.0), (80.0, -80.0))
    frame = Item(part="frame", copies=1, rings=(outer, inner), group=GROUP)
    small = replace(_box("cover", 50, 30, 4), in_opening=True)
    plates = {
        "nests": pack([frame, small], bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0).plates,
        "load": pack([frame, replace(small, in_opening=False)], bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0).plates,
    }
    brim = replace(GROUP, brim_mm=1.0)
    with_brim = [replace(frame, group=brim), replace(small, group=brim)]

    assert len(plates["nests"]) == 1
    assert len(plates["nests"][0].placements) == 5
    assert verify(plates["nests"], [frame, small], bed=BED, spacing_mm=4.0) == ()
    assert len(plates["load"]) == 2
    assert len(pack(with_brim, bed=BED, spacing_mm=4.0, seed=1, budget_s=2.0).plates) == 2

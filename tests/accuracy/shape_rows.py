"""Shapes: volumes, measures, small parts, paper, outlines and nesting."""

from __future__ import annotations

import json
import math
import tempfile
from collections.abc import Iterator
from pathlib import Path

from manifold3d import CrossSection
from scipy.special import ellipe

from planner.job import area_mm2, read_outline
from planner.output import SIZES
from planner.packing import pack, verify_plate
from planner.rules.fit.small_part import largest_small
from planner.survey import hull_points, inside_at
from tests.accuracy.row import Row
from tests.packing.record_layouts import record_places
from tests.packing.search.test_known_optima import GAP_MM, _bins, _instances, _rectangles
from tests.shapes import DATA, Manifold, ball, cuboid, cylinder, solid_of, tube
from tests.survey.test_station import c_shell

SVG = '<svg xmlns="http://www.w3.org/2000/svg"><rect x="0" y="0" width="{0}" height="{0}"/></svg>'
RECORDS = ("fu", "blaz1")


def _outline(px: float) -> float:
    """Return the area of a square drawn in px."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "square.svg"
        path.write_text(SVG.format(px), encoding="utf-8")
        return area_mm2(read_outline(path))


def _torus() -> float:
    """Return the volume of a finely cut torus of radii 20 and 8 mm."""
    return solid_of(Manifold.revolve(CrossSection.circle(8, 256).translate((20, 0)), 256)).volume_mm3


def _around(wide: float, high: float) -> float:
    """Return what is measured around an open elliptic shell."""
    found = inside_at(c_shell(wide, high, 45), 50.0, "around")
    return found.mm if found else math.nan


def _overlaps(name: str) -> float:
    """Return in how many ways the proof objects to a record layout for overlap."""
    layouts = json.loads((DATA / "nesting" / "record_layouts.json").read_text(encoding="utf-8"))["layouts"]
    layout = next(one for one in layouts if one["id"] == name)
    rings, bed, _, places = record_places(layout)
    return float(len([w for w in verify_plate(places, rings, bed=bed, spacing_mm=0.0) if "reaches" in w]))


def _filled(number: int) -> float:
    """Return the share of the first bed that rectangles fill which could fill it wholly."""
    asked = _instances("perfect_rectangles.json")[number]
    items, bed = _rectangles([(x, y, 1) for x, y in asked["items"]], asked["strip_width"], asked["opt_height"])
    return max(plate.fill for plate in pack(items, bed=bed, spacing_mm=GAP_MM, seed=1, budget_s=0.0).plates)


def shape_rows() -> Iterator[Row]:
    """Yield solids, small parts, paper, SVG, nesting."""
    cone = Manifold.cylinder(30, 10, 6, 512)
    for what, expected, within, ours in (
        ("volume of a torus, radii 20 and 8 mm", 2 * math.pi**2 * 20 * 64, 10.0, _torus),
        (
            "volume of a cone from radius 10 to 6, 30 high",
            math.pi * 10 * (100 + 60 + 36),
            1.0,
            lambda: solid_of(cone).volume_mm3,
        ),
        ("volume of a ball of 20 mm", math.pi * 8000 / 6, 5.0, lambda: ball(20.0, 256).volume_mm3),
        (
            "volume of a six-sided prism, 20 over corners, 5 high",
            1.5 * math.sqrt(3) * 100 * 5,
            1e-6,
            lambda: solid_of(cylinder(20, 5, 6)).volume_mm3,
        ),
    ):
        yield Row(source="bronshtein", what=what, expected=expected, unit="mm3", within=within, ours=ours)
    yield Row(
        source="bronshtein",
        what="around the inside of a tube of 62 mm, 96 sides",
        expected=96 * 62.0 * math.sin(math.pi / 96),
        unit="mm",
        within=1e-3,
        ours=lambda: getattr(inside_at(tube(70.0, 62.0, 120.0), 40.0, "around"), "mm", math.nan),
    )
    for wide, high in ((38.0, 27.0), (31.0, 31.0), (45.0, 30.0)):
        yield Row(
            source="abramowitz",
            what=f"around an open ellipse, half axes {wide:g} and {high:g}",
            expected=float(4 * wide * ellipe(1 - (high / wide) ** 2)),
            unit="mm",
            within=0.5,
            ours=lambda wide=wide, high=high: _around(wide, high),  # type: ignore[misc]
        )
    yield Row(
        source="cfr1501",
        what="a ball of 31.75 mm just fits",
        expected=1.0,
        unit="",
        within=0.01,
        ours=lambda: largest_small(hull_points(ball(31.75, 128).vertices_mm)),
    )
    yield Row(
        source="cfr1501",
        what="a thin rod of 65.377 mm just fits, tilted",
        expected=1.0,
        unit="",
        within=0.02,
        ours=lambda: largest_small(hull_points(cuboid(65.377, 0.1, 0.1).vertices_mm)),
    )
    for source, name, wide, high in (("iso216", "a4", 210.0, 297.0), ("y141", "letter", 8.5 * 25.4, 11 * 25.4)):
        for side, mm in (("width_mm", wide), ("height_mm", high)):
            yield Row(
                source=source,
                what=f"{side.removesuffix('_mm')} of {name}",
                expected=mm,
                unit="mm",
                within=1e-6,
                ours=lambda name=name, side=side: float(getattr(SIZES[name], side)),  # type: ignore[misc]
            )
    for px in (96.0, 48.0):
        yield Row(
            source="css3",
            what=f"area of a square of {px:g} px",
            expected=(px / 96 * 25.4) ** 2,
            unit="mm2",
            within=0.01,
            ours=lambda px=px: _outline(px),  # type: ignore[misc]
        )
    for name in RECORDS:
        yield Row(
            source="gardeyn",
            what=f"overlaps found in the record of {name}",
            expected=0.0,
            unit="",
            within=1e-9,
            ours=lambda name=name: _overlaps(name),  # type: ignore[misc]
        )
    for number in (0, 1):
        yield Row(
            source="hopper",
            what=f"first bed filled, instance {number + 1}, at the first answer",
            expected=1.0,
            unit="",
            within=0.15,
            ours=lambda number=number: _filled(number),  # type: ignore[misc]
            slow=True,
        )
    for asked in _instances("bins.json")[:3]:
        yield Row(
            source="berkey",
            what=f"bins of {asked['id']}, at the first answer",
            expected=float(asked["best_rot90"]),
            unit="",
            within=2.0,
            ours=lambda asked=asked: float(_bins(asked["id"])),  # type: ignore[misc]
            slow=True,
        )

"""Estimates: mass from what is laid, by closed forms; sections that add up to the volume."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from manifold3d import CrossSection

from planner.job import Material, Printer, Settings
from planner.layers import (
    PartEstimate,
    bead_area_mm2,
    estimate_part,
    layer_sums_s,
    mass_g,
    pitch_mm,
    plate_duration_s,
    plate_kinds_s,
)
from planner.layers.heights import layer_middles_mm, layer_tops_mm
from planner.layers.lines.fill import fill_lines
from planner.layers.lines.section import sections_of
from planner.mesh import Solid, posed
from planner.sourced import stated
from tests.shapes import Manifold, ball, cuboid, cylinder, solid_of, tube

DOWN = (0.0, 0.0, -1.0)


@pytest.fixture(name="estimated")
def _estimated(printer: Printer, petg: Material, standard: Settings):  # type: ignore[no-untyped-def]
    def estimated(solid: Solid, **changes: object) -> PartEstimate:
        return estimate_part(posed(solid, DOWN), settings=replace(standard, **changes), printer=printer, material=petg)  # type: ignore[arg-type]

    return estimated


def test_a_solid_cuboid_at_full_infill_weighs_its_volume(estimated, petg: Material) -> None:  # type: ignore[no-untyped-def]
    """100 % infill fills the volume: mass within 2 % of rho V."""
    estimate = estimated(cuboid(40, 30, 20), infill_percent=stated(100.0))

    assert mass_g(estimate.deposited_mm3, petg).value == pytest.approx(1.27 * 24.0, rel=0.02)


def test_a_thin_tube_is_laid_in_lines_of_known_length(estimated) -> None:  # type: ignore[no-untyped-def]
    """A wall of two lines is two contours: each layer 2 pi (R - w/2) + 2 pi (r + w/2), within 1 % (geometry)."""
    estimate = estimated(tube(40.0, 38.2, 20.0, 240))
    meant = 2 * math.pi * (20.0 - 0.225 + 19.1 + 0.225) * estimate.layers_n

    assert estimate.kinds_mm["outer contour"] == pytest.approx(meant, rel=0.01)
    assert estimate.kinds_mm["infill"] == 0.0


def test_an_empty_box_by_hand(estimated) -> None:  # type: ignore[no-untyped-def]
    """No infill, no solid layers, one contour: perimeter of the centre line times layers times the bead's area."""
    none = stated(0.0)
    estimate = estimated(
        cuboid(30, 20, 10.04), infill_percent=none, solid_top_mm=none, solid_bottom_mm=none, contours_n=1
    )
    layers = len(layer_tops_mm(10.04, 0.24, 0.2))
    first, other = bead_area_mm2(0.45, 0.24), bead_area_mm2(0.45, 0.2)
    perimeter = 2 * (30 - 0.45 + 20 - 0.45)

    assert estimate.layers_n == layers == 50
    assert estimate.deposited_mm3 == pytest.approx(perimeter * (first + 49 * other), rel=1e-6)


@pytest.mark.parametrize("shape", ["ball", "cone"])
def test_sections_integrate_to_the_volume_at_second_order(shape: str) -> None:
    """Mid-height sections are the midpoint rule: the error falls fourfold as layers halve (to 0.3 % at 0.2 mm)."""
    body = ball(30.0, 200) if shape == "ball" else solid_of(cylinder(30, 30, 200).warp(_cone))
    solid = posed(body, DOWN)
    errors = []
    for layer in (4.0, 2.0, 1.0, 0.2):
        tops = (np.arange(1, round(30 / layer) + 1) * layer).astype(np.float64)
        middles = layer_middles_mm(tops) * float(solid.bounds_mm[1, 2]) / float(tops[-1])
        sections, approximate = sections_of(solid, middles)
        assert not approximate
        found = sum(section.area() for section in sections) * float(solid.bounds_mm[1, 2]) / len(tops)
        errors.append(abs(found / solid.volume_mm3 - 1))

    assert errors[-1] < 3e-3
    assert errors[0] / errors[2] > 10.0


def _cone(point: tuple[float, float, float]) -> tuple[float, float, float]:
    """Narrow a cylinder toward its top."""
    x, y, z = point
    share = 1 - 0.9 * z / 30
    return x * share, y * share, z


def test_fill_lines_cover_their_area() -> None:
    """Length times pitch equals the area, at any angle, holes left out."""
    ring = np.array([[0, 0], [40, 0], [40, 30], [0, 30.0]])
    hole = np.array([[10, 10], [10, 20], [25, 20], [25, 10.0]])
    for angle in (0.0, 45.0, 30.0, -45.0):
        lines = fill_lines([ring, hole], 0.4, angle)
        length = np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum()
        assert length * 0.4 == pytest.approx(40 * 30 - 15 * 10, rel=0.01)


def test_support_is_laid_under_what_hangs_and_not_in_bores_or_bridges(estimated) -> None:  # type: ignore[no-untyped-def]
    """A wide T needs support, a lying bore of 5 mm and a bridge of 4 mm do not."""
    wide = solid_of(Manifold.cube((4, 20, 20)).translate((18, 0, 0)) + Manifold.cube((40, 20, 4)).translate((0, 0, 20)))
    bored = solid_of(Manifold.cube((20, 20, 20), True) - cylinder(5, 40, 64).translate((0, 0, -20)).rotate((90, 0, 0)))
    bridge = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((4, 30, 10)).translate((8, -5, 0)))

    assert estimated(wide).needs_support
    assert not estimated(bored).needs_support
    assert not estimated(bridge).needs_support
    assert estimated(wide, support="none").support_mm3 == 0.0
    assert estimated(wide, support="none").needs_support


def test_finer_layers_never_print_faster(estimated) -> None:  # type: ignore[no-untyped-def]
    """Halving the layers makes it slower."""
    part = cuboid(20, 20, 12)

    assert estimated(part, layer_height_mm=stated(0.1)).duration_s > estimated(part).duration_s


def test_flow_is_capped_at_what_melts(estimated, petg: Material) -> None:  # type: ignore[no-untyped-def]
    """However fast the settings, no line is laid faster than the material melts."""
    fast = estimated(cuboid(60, 60, 4), infill_speed_mm_s=stated(180.0), inner_contour_speed_mm_s=stated(180.0))

    assert fast.peak_flow_mm3_s <= petg.melt_rate_mm3_s.value + 1e-6


def test_an_unsound_mesh_is_estimated_and_says_why(estimated) -> None:  # type: ignore[no-untyped-def]
    """Open outlines are closed by guess, near the true volume, and the estimate says that it did."""
    box = cuboid(20, 20, 10)
    open_box = Solid(
        name="open",
        vertices_mm=box.vertices_mm.copy(),
        faces=box.faces[:-1].copy(),
        sha256="",
        faults=("open at 3 edges",),
    )
    estimate = estimated(open_box)

    assert "not sound" in estimate.approximate
    assert estimate.deposited_mm3 > 500.0


def test_a_plate_waits_for_the_least_layer_time_once(estimated, standard: Settings, printer: Printer) -> None:  # type: ignore[no-untyped-def]
    """Alone, a small part waits 8 s a layer; ten copies share the waiting; heat-up counts once."""
    small = estimated(cuboid(5, 5, 10))
    alone = plate_duration_s([small], settings=standard, printer=printer)
    ten = plate_duration_s([small] * 10, settings=standard, printer=printer)

    assert alone.value == pytest.approx(300.0 + 8.0 * small.layers_n)
    assert ten.value == pytest.approx(
        300.0 + np.maximum(layer_sums_s([small] * 10, settings=standard, printer=printer), 8.0).sum()
    )
    assert alone.low < alone.value < alone.high
    for copies, whole in (([small], alone), ([small] * 10, ten)):
        kinds = plate_kinds_s(copies, settings=standard, printer=printer)
        assert sum(kinds.values()) == pytest.approx(whole.value)
        assert min(kinds.values()) >= 0.0


def test_one_kilogram_of_filament_is_as_long_as_published(petg: Material) -> None:
    """327.36 m of 1.75 mm PETG at 1.27 g/cm3 weigh 1 kg (computed from density)."""
    volume = 327_360.0 * math.pi / 4 * 1.75**2

    assert mass_g(volume, petg).value == pytest.approx(1000.0, rel=1e-4)


def test_pitch_at_full_share_fills_the_layer() -> None:
    """A / (h share): at share 1 the lines' area over the pitch is the layer's height."""
    assert bead_area_mm2(0.45, 0.2) / pitch_mm(0.45, 0.2) == pytest.approx(0.2)
    assert pitch_mm(0.45, 0.2, 0.2) == pytest.approx(5 * pitch_mm(0.45, 0.2))


@pytest.mark.parametrize("wall", [0.5, 0.8, 1.0, 1.2, 1.4, 2.0, 2.6, 4.0])
def test_walls_of_any_width_weigh_what_they_are(estimated, wall: float) -> None:  # type: ignore[no-untyped-def]
    """At 100 % infill a wall deposits its volume, less only the outer beads' round sides, and never more than it is."""
    solid = cuboid(60, wall, 20)
    share = estimated(solid, infill_percent=stated(100.0)).deposited_mm3 / solid.volume_mm3

    assert 0.90 - 0.05 / wall < share < 1.02


@pytest.mark.parametrize(("lean", "needed"), [(30, False), (44, False), (60, True), (70, True), (80, True)])
def test_a_flat_slope_is_held_up_over_its_whole_length(estimated, lean: float, needed: bool) -> None:  # type: ignore[no-untyped-def]
    """A buttress leans out over the bed: the air under it is filled, less a strip at its edge that prints alone.

    Half the run times the rise times the depth (geometry), of which the model lays a share of 0.15.
    """
    run = 15 * math.tan(math.radians(lean))
    outline = CrossSection([[(0, 0), (10, 0), (10 + run, 15), (10 + run, 20), (0, 20)]])
    found = estimated(solid_of(Manifold.extrude(outline, 20).rotate((90, 0, 0))))

    assert found.needs_support == needed
    if needed:
        assert found.bridge_span_mm == 0.0
        assert 0.35 < found.support_mm3 / (0.15 * run * 15 * 20 / 2) < 1.05
        assert 0.6 < found.supported_mm2 / (run * 20) < 1.3


@pytest.mark.parametrize(("lean", "needed"), [(30, False), (44, False), (70, True), (80, True)])
def test_a_slope_is_supported_where_it_leans_too_far(estimated, lean: float, needed: bool) -> None:  # type: ignore[no-untyped-def]
    """An upside-down cone prints by itself up to 45 degrees from vertical and needs support well beyond."""
    wide = 5 + 8 * math.tan(math.radians(lean))
    cone = solid_of(Manifold.cylinder(8, 5, wide, 96))

    assert estimated(cone).needs_support == needed


def test_a_brim_stays_outside_of_holes(estimated) -> None:  # type: ignore[no-untyped-def]
    """A tube's brim is as long as one round its outside, not inside its bore."""
    brim = stated(3.0)
    ring, disc = estimated(tube(40, 30, 4), brim_mm=brim), estimated(solid_of(cylinder(40, 4, 96)), brim_mm=brim)

    assert ring.kinds_mm["brim"] == pytest.approx(disc.kinds_mm["brim"], rel=1e-3)
    assert ring.kinds_mm["brim"] > 0.0

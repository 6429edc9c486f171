"""Curved channels: centre line, least diameter, length and bends of bent tubes; nothing else is one."""

from __future__ import annotations

import math

import numpy as np
import pytest
from manifold3d import Mesh64

from planner.mesh import Solid, read_solid
from planner.survey import Channel
from planner.survey.bores.facets import facets_of
from planner.survey.openings.channels import channels_of
from sample_parts.solids import bent_tube
from tests.shapes import DATA, Manifold, ball, bored_plate, cuboid, cylinder, solid_of, tube
from tests.survey.drawn.curved_meshes import wavy_shell


def _channels(solid: Solid) -> tuple[Channel, ...]:
    """Return the channels of a solid."""
    return channels_of(solid, facets_of(solid))


@pytest.mark.parametrize(
    ("radius", "bend", "angle", "n", "steps"),
    [(1.0, 12.0, 90.0, 32, 18), (1.5, 12.0, 90.0, 16, 18), (1.0, 20.0, 45.0, 24, 10), (0.8, 8.0, 180.0, 12, 40)],
)
def test_a_bent_tube_is_measured(radius: float, bend: float, angle: float, n: int, steps: int) -> None:
    """Inscribed diameter 2 r cos(pi/n), length R theta within 3 %, bends within 8 % (geometry), at any turn."""
    body = Manifold.cube((60, 10, 60), True).translate((5, 0, 5)) - bent_tube(radius, bend, angle, n, steps)
    (channel,) = _channels(solid_of(body.rotate((20, 30, 40))))

    assert channel.diameter_mm == pytest.approx(2 * radius * math.cos(math.pi / n), abs=0.02)
    assert channel.length_mm == pytest.approx(bend * math.radians(angle), rel=0.03)
    assert channel.bends_deg == pytest.approx(angle, rel=0.08)


def test_straight_leads_belong_to_the_channel() -> None:
    """Arc of 9 mm radius with straight leads: length is the sum, and the line runs from mouth to mouth."""
    bend = bent_tube(1.1, 9.0, 90.0, 32, 18)
    leads = cylinder(2.2, 20, 32).rotate((0, -90, 0)) + cylinder(2.2, 20, 32).translate((9, 0, 9))
    body = Manifold.cube((22, 12, 16), True).translate((4, 0, 4)) - bend - leads
    (channel,) = _channels(solid_of(body))
    straight = 7.0 + 3.0  # from -7 to 0 along x, from 9 to 12 along z
    ends = sorted((channel.line_mm[0], channel.line_mm[-1]))

    assert channel.length_mm == pytest.approx(straight + 9.0 * math.pi / 2, rel=0.02)
    assert ends[0] == pytest.approx((-7.0, 0.0, 0.0), abs=0.1)
    assert ends[1] == pytest.approx((9.0, 0.0, 12.0), abs=0.1)


def test_every_point_of_the_line_lies_inside_the_void() -> None:
    """The line keeps to the arc: each of its points lies within a tenth of the diameter of the arc's circle."""
    body = Manifold.cube((60, 10, 60), True).translate((5, 0, 5)) - bent_tube(1.0, 12.0, 90.0, 32, 18)
    (channel,) = _channels(solid_of(body))
    points = np.array(channel.line_mm)[1:-1]

    assert np.hypot(points[:, 0], points[:, 2] - 12.0) == pytest.approx(12.0, abs=0.2)


@pytest.mark.parametrize(
    "solid",
    [
        ball(20.0),
        cuboid(20, 10, 5),
        tube(20, 16, 30),
        bored_plate(40, 30, 6, [(10, 15, 6, 64), (28, 15, 6, 24)]),
        solid_of(Manifold.cube((30, 30, 30)) - Manifold.sphere(8, 96).translate((15, 15, 15))),
    ],
    ids=["ball", "cuboid", "tube", "bored plate", "hollow"],
)
def test_what_does_not_bend_through_is_no_channel(solid: Solid) -> None:
    """Balls, blocks, straight bores and hollows give none."""
    assert not _channels(solid)


@pytest.mark.parametrize("name", ["angle_block_inch", "brace", "clip_plate", "gearwheel_keyed", "slide_cover"])
def test_real_parts_without_curved_channels_give_none(name: str) -> None:
    """Machined and printed parts by others have straight bores only (seen on them)."""
    assert not _channels(read_solid(DATA / "bores" / f"{name}.stl"))


@pytest.mark.parametrize("triangles_n", [15_000, 60_000])
def test_a_wide_hollow_whose_section_changes_does_not_bend(triangles_n: int) -> None:
    """The inside of a wavy shell lies about a straight line, its own axis, however fine its mesh (by its formula)."""
    assert not _channels(wavy_shell(triangles_n))


@pytest.mark.parametrize("triangles_n", [4_000, 60_000])
def test_a_channel_in_the_wall_of_a_shell_is_the_same_in_any_mesh(triangles_n: int) -> None:
    """An arc of 20 mm about the shell's wall of 12: its diameter 2 r cos(pi/n), whatever triangles stand about it."""
    shell = wavy_shell(triangles_n)
    points, half = shell.vertices_mm.copy(), len(shell.vertices_mm) // 2
    points[half:, :2] *= 1.0 - 9.0 / np.linalg.norm(points[half:, :2], axis=1)[:, None]
    body = Manifold(Mesh64(points, shell.faces.astype(np.uint64)))
    tube = bent_tube(1.5, 20.0, 60.0, 32, 24).rotate((90, 0, 0)).translate((36, 0, 100))
    (channel,) = _channels(solid_of(body - tube))

    assert channel.diameter_mm == pytest.approx(3.0 * math.cos(math.pi / 32), abs=0.02)
    assert channel.length_mm > 12.0

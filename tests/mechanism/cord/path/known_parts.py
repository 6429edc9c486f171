"""A plate with bores and a pulley, with surveys written by hand: no mesh is measured."""

from __future__ import annotations

import numpy as np

from planner.mesh import Solid
from planner.survey import Bore, Channel, Pose, Survey, Walls
from tests.shapes import Manifold, cylinder, solid_of


def bore(number: int, x: float, y: float, z: float, diameter_mm: float, depth_mm: float) -> Bore:
    """Return a through bore along z about its middle."""
    return Bore(
        id=f"b{number}",
        diameter_mm=diameter_mm,
        drawn_diameter_mm=diameter_mm,
        facets_n=32,
        depth_mm=depth_mm,
        axis=(0.0, 0.0, 1.0),
        centre_mm=(x, y, z),
        through=True,
        step_of=None,
        coverage_deg=360.0,
        edge_wall_mm=5.0,
    )


def survey_of(name: str, bores: tuple[Bore, ...], channels: tuple[Channel, ...] = ()) -> Survey:
    """Return a survey that knows bores and channels alone."""
    pose = Pose(down=(0.0, 0.0, -1.0), height_mm=1.0, contact_mm2=1.0, tip_deg=45.0, overhang_mm2=0.0, neck_mm2=0.0)
    nothing = np.zeros(0)
    walls = Walls(
        least=None,
        least_clear=None,
        places=(),
        run_outs=(),
        thickness_mm=nothing,
        area_mm2=nothing,
        feather_n=0,
        of_face_mm=np.zeros(0, np.float32),
    )
    return Survey(
        name=name,
        sha256="",
        triangles_n=12,
        bodies_n=1,
        healed=(),
        faults=(),
        unit="mm",
        unit_doubt="",
        size_mm=(1.0, 1.0, 1.0),
        volume_mm3=1.0,
        area_mm2=6.0,
        hull_mm=np.zeros((0, 3)),
        walls=walls,
        bores=bores,
        possible_bores=(),
        slots=(),
        channels=channels,
        handles_n=None,
        poses=(pose,),
    )


def plate() -> tuple[Solid, Survey]:
    """Return a plate of 40 x 20 x 12 mm with bores of 2.0, 3.4 and 2.0 mm."""
    body = Manifold.cube((40.0, 20.0, 12.0))
    bores = tuple(bore(k + 1, x, 10.0, 6.0, d, 12.0) for k, (x, d) in enumerate(((8.0, 2.0), (20.0, 3.4), (32.0, 2.0))))
    for one in bores:
        body -= cylinder(one.drawn_diameter_mm, 14.0, 32).translate((one.centre_mm[0], 10.0, -1.0))
    return solid_of(body, "plate"), survey_of("plate", bores)


def pulley() -> tuple[Solid, Survey]:
    """Return a wheel of 12 x 6 mm with a groove of 8 x 2 mm round a bore of 3.4 mm."""
    wheel = cylinder(12.0, 6.0, 64) - (cylinder(20.0, 2.0, 64) - cylinder(8.0, 2.0, 64)).translate((0, 0, 2.0))
    wheel -= cylinder(3.4, 8.0, 32).translate((0, 0, -1.0))
    return solid_of(wheel, "pulley"), survey_of("pulley", (bore(1, 0.0, 0.0, 3.0, 3.4, 6.0),))

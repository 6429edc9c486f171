"""One survey of one solid: every room to the right reads it, none measures again."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import numpy as np

from planner.cache import holds, kept, key_of
from planner.cores import ahead
from planner.mesh import Solid
from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import facets_of
from planner.survey.extents import hull_points
from planner.survey.file_digits import bores_as_filed, walls_as_filed
from planner.survey.openings.channels import channels_of
from planner.survey.openings.inner_gap import inner_gap
from planner.survey.openings.slots import slots_of
from planner.survey.pegs.found_pegs import pegs_of
from planner.survey.stable_poses import poses_of
from planner.survey.survey import Survey
from planner.survey.walls.walls import walls_of

SURVEY_VERSION = 34
"""Raised whenever a measure changes, so that kept surveys are not trusted."""


def survey(solid: Solid) -> Survey:
    """Measure a solid at drawn size; kept on disk under the mesh's content, its unit and its vertices."""
    found = kept("survey", _key(solid), Survey, lambda: measured_anew(solid))
    return replace(found, name=solid.name, unit_doubt=solid.unit_doubt)


def survey_ahead(solids: Iterable[Solid]) -> None:
    """Measure what nobody has measured yet on all cores, so that it is kept when asked for."""
    fresh = {key: solid for solid in solids if not holds("survey", key := _key(solid))}
    ahead(survey, sorted(fresh.values(), key=lambda solid: -solid.triangles_n))


def _key(solid: Solid) -> str:
    """Return all that a survey hangs on."""
    arrays = (solid.vertices_mm.tobytes(), solid.faces.tobytes())
    return key_of(SURVEY_VERSION, solid.sha256, solid.unit, *arrays, solid.faults)


def measured_anew(solid: Solid) -> Survey:
    """Measure everything, whatever is kept."""
    facets = facets_of(solid)
    bores, possible = bores_of(solid, facets)
    return Survey(
        name=solid.name,
        sha256=solid.sha256,
        triangles_n=solid.triangles_n,
        bodies_n=solid.bodies_n,
        healed=solid.healed,
        faults=solid.faults,
        unit=solid.unit,
        unit_doubt=solid.unit_doubt,
        size_mm=solid.size_mm,
        volume_mm3=solid.volume_mm3,
        area_mm2=solid.area_mm2,
        hull_mm=hull_points(solid.vertices_mm),
        walls=walls_as_filed(walls_of(solid, bores)),
        bores=bores_as_filed(bores),
        possible_bores=bores_as_filed(possible),
        slots=slots_of(solid, facets),
        channels=channels_of(solid, facets),
        handles_n=_handles_n(solid) if solid.sound else None,
        poses=poses_of(solid),
        pegs=pegs_of(solid, facets),
        inner_gap=inner_gap(solid),
    )


def _handles_n(solid: Solid) -> int:
    """Return the genus of a closed surface, all bodies together: bodies less half of V - E + F (Euler, Poincare)."""
    used = len(np.unique(solid.faces))
    return round(int(solid.trimesh.body_count) - (used - len(solid.faces) / 2) / 2)

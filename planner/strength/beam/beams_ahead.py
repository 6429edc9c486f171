"""The beam pass of many parts, done on all cores before anybody asks for one."""

from __future__ import annotations

from collections.abc import Iterable

from planner.cache import holds
from planner.cores import ahead
from planner.finding import Vec3
from planner.mesh import Solid
from planner.strength.beam.beam_pass import ways_asked, weakest_key
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.loads.part_load import LoadCase

Asked = tuple[Solid, tuple[LoadCase, ...], BeamStuff, tuple[Vec3, ...]]
"""What :func:`weakest` is asked."""


def weakest_ahead(asked: Iterable[Asked]) -> None:
    """Judge what nobody has judged yet, way by way of every part, so that it is kept when asked for.

    The parts and ways with the most to cut come first: one bulky part may take longer than all others together.
    """
    fresh = {key: one for one in asked if not holds("strength", key := weakest_key(*one))}
    ways = [way for one in fresh.values() for way in ways_asked(*one)]
    ahead(lambda way: way.worst, sorted(ways, key=lambda way: -way.solid.triangles_n * len(way.loads)))

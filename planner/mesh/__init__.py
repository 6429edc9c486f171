"""Mesh: a file becomes a :class:`Solid` in mm, sound or with its faults named.

1. ``read_solid(path, name=..., unit=...)`` reads STL, 3MF, OBJ or PLY and heals what is unambiguous;
   ``objects_in(path)`` names the objects of a 3MF that builds several.
2. ``solid.scaled(f)``, ``.mirrored()``, ``.transformed(m)`` give copies; ``posed`` stands one on the bed.
3. ``write_stl``, ``write_3mf`` write them and read them back.
"""

from planner.mesh.read_mesh import objects_in, read_solid
from planner.mesh.single_precision import written_sound
from planner.mesh.solid import Solid, arrays_of
from planner.mesh.stood_on_bed import Copy, copy_at, placed, posed, posed_points, turning
from planner.mesh.write_mesh import write_3mf, write_stl

__all__ = [
    "Copy",
    "Solid",
    "arrays_of",
    "copy_at",
    "objects_in",
    "placed",
    "posed",
    "posed_points",
    "read_solid",
    "turning",
    "write_3mf",
    "write_stl",
    "written_sound",
]

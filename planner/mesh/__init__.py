"""Mesh: a file becomes a :class:`Solid` in mm, sound or with its faults named.

1. ``read_solid(path, name=..., unit=...)`` reads STL, 3MF, OBJ or PLY and heals what is safe to heal.
2. ``solid.scaled(f)``, ``.mirrored()``, ``.transformed(m)`` give copies.
"""

from planner.mesh.solid import Solid

__all__ = [
    "Solid",
]

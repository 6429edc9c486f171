"""The Heron put together, for its picture: ``python -m sample_parts.assembled``."""

from __future__ import annotations

from manifold3d import Manifold

from planner.mesh import Solid, arrays_of
from planner.output import picture_png
from sample_parts.generate import FOLDER
from sample_parts.places import places, stood


def assembled() -> Manifold:
    """Return every part in its place, as one body to look at."""
    return Manifold.compose([stood(copy) for copy in places()])


def main() -> None:
    """Write the picture beside the job."""
    vertices_mm, faces = arrays_of(assembled())
    whole = Solid(name="heron", vertices_mm=vertices_mm, faces=faces, sha256="")
    (FOLDER.parent / "heron.png").write_bytes(picture_png(whole, 960, 600))


if __name__ == "__main__":
    main()

"""The Heron put together, for its picture: ``python -m sample_parts.assembled``."""

from __future__ import annotations

from manifold3d import Manifold

from planner.mesh import Solid, arrays_of
from planner.output import picture_png
from sample_parts.arm_group import DECK_Z, SADDLE_X
from sample_parts.dimensions import HERON as D
from sample_parts.generate import FOLDER, PARTS

DECK_X = SADDLE_X + D.deck_length / 2 - 34.0
MIDDLE_Z = DECK_Z + D.deck_thick / 2
POST_X = DECK_X + D.deck_length / 2 - 13.0


def assembled() -> Manifold:
    """Return the main parts in their places, as one body to look at."""
    jaw, cap = PARTS["jaw"](), PARTS["cap"]()
    half, post_z = D.post_apart / 2, MIDDLE_Z - (D.clevis_thick - D.deck_thick) / 2
    places = [
        PARTS["cuff"](),
        PARTS["saddle"](),
        PARTS["deck"]().translate((DECK_X, 0, MIDDLE_Z)),
        PARTS["cover"]().translate((SADDLE_X, 0, MIDDLE_Z + D.deck_thick / 2 + 4.5)),
        jaw.rotate((0, 0, 9)).translate((POST_X, half, post_z)),
        jaw.rotate((180, 0, -9)).translate((POST_X, -half, post_z)),
        *(cap.translate((POST_X, y, MIDDLE_Z + D.deck_thick / 2)) for y in (-half, half)),
        PARTS["pulley"]().rotate((90, 0, 0)).translate((DECK_X - 10.0, 17.5, MIDDLE_Z)),
        PARTS["pulley"]().rotate((90, 0, 0)).translate((DECK_X - 10.0, -17.5, MIDDLE_Z)),
    ]
    return Manifold.compose(places)


def main() -> None:
    """Write the picture beside the job."""
    vertices_mm, faces = arrays_of(assembled())
    whole = Solid(name="heron", vertices_mm=vertices_mm, faces=faces, sha256="")
    (FOLDER.parent / "heron.png").write_bytes(picture_png(whole, 960, 600))


if __name__ == "__main__":
    main()

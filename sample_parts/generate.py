"""Write the Heron's meshes: ``python -m sample_parts.generate``. Same code, same files."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import numpy as np
from manifold3d import Manifold

from planner.mesh import Copy, Solid, arrays_of, write_3mf, write_stl
from sample_parts import arm_group, cord_group, jaw_group

PARTS: dict[str, Callable[[], Manifold]] = {
    "cuff": arm_group.cuff,
    "saddle": arm_group.saddle,
    "deck": arm_group.deck,
    "jaw": jaw_group.jaw,
    "pad": jaw_group.pad,
    "cap": jaw_group.cap,
    "pulley": cord_group.pulley,
    "bracket-left": cord_group.bracket_left,
    "bracket-right": cord_group.bracket_right,
    "link": cord_group.link,
    "yoke": cord_group.yoke,
    "anchor": cord_group.anchor,
    "guide": cord_group.guide,
    "buckle": cord_group.buckle,
    "knob": cord_group.knob,
    "cover": arm_group.cover,
    "lock-pin": arm_group.lock_pin,
}
AS_3MF = ("buckle",)
FOLDER = Path(__file__).parent / "heron" / "parts"


def solid(name: str) -> Solid:
    """Return one part as a solid."""
    vertices_mm, faces = arrays_of(PARTS[name]())
    return Solid(name=name, vertices_mm=vertices_mm, faces=faces, sha256="")


def main(folder: Path = FOLDER) -> None:
    """Write every part."""
    for name in PARTS:
        part = solid(name)
        if name in AS_3MF:
            write_3mf(folder / f"{name}.3mf", [Copy(name=name, solid=part, turn=np.eye(3), move_mm=np.zeros(3))])
        else:
            write_stl(folder / f"{name}.stl", [part])
        print(f"{name}: {part.triangles_n} triangles, {part.volume_mm3 / 1000:.1f} cm3")


if __name__ == "__main__":
    main()

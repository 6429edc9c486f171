"""Write the Heron's meshes and their sums in the job: ``python -m sample_parts.generate``. Same code, same files."""

from __future__ import annotations

import hashlib
import math
import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
from manifold3d import Manifold

from planner.mesh import Copy, Solid, arrays_of, write_3mf, write_stl
from sample_parts import arm_group, cord_group, jaw_group
from sample_parts.dimensions import HERON as D

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


def cuff_padding_svg() -> str:
    """Return the inside of the cuff laid flat, as SVG in mm: a sector of a ring, since the cuff is part of a cone.

    A cone with slant l between radii R > r unrolls to a ring sector of radii L = R l / (R - r) and L - l, whose
    angle is the cone's own times R / L.
    """
    wide, narrow = D.cuff_inner_radius, D.cuff_inner_radius * D.cuff_taper
    slant = math.hypot(D.cuff_length, wide - narrow)
    outer = wide * slant / (wide - narrow)
    inner, half = outer - slant, math.radians(360.0 - D.cuff_open_deg) * wide / outer / 2
    across, drop = 2 * outer * math.sin(half), inner * math.cos(half)
    x, y = outer * math.sin(half), outer * math.cos(half) - drop
    near = inner * math.sin(half)
    points = [(0.0, outer - drop - y), (2 * x, outer - drop - y), (x + near, outer - drop), (x - near, outer - drop)]
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = points
    path = (
        f"M{ax:.3f},{ay:.3f} A{outer:.3f},{outer:.3f} 0 0 1 {bx:.3f},{by:.3f} "
        f"L{cx:.3f},{cy:.3f} A{inner:.3f},{inner:.3f} 0 0 0 {dx:.3f},{dy:.3f} Z"
    )
    high = outer - drop
    size = f'width="{across:.3f}mm" height="{high:.3f}mm" viewBox="0 0 {across:.3f} {high:.3f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}><path fill="none" stroke="#000" d="{path}"/></svg>\n'


def main(folder: Path = FOLDER) -> None:
    """Write every part."""
    (folder.parent / "cuff-padding.svg").write_text(cuff_padding_svg(), encoding="utf-8")
    for name in PARTS:
        part = solid(name)
        if name in AS_3MF:
            write_3mf(folder / f"{name}.3mf", [Copy(name=name, solid=part, turn=np.eye(3), move_mm=np.zeros(3))])
        else:
            write_stl(folder / f"{name}.stl", [part])
        _sum(folder.parent / "job.toml", next(folder.glob(f"{name}.*")))
        print(f"{name}: {part.triangles_n} triangles, {part.volume_mm3 / 1000:.1f} cm3")


def _sum(job: Path, mesh: Path) -> None:
    """Put a mesh's sum into the job beside it, where there is one."""
    if job.exists():
        old, found = job.read_text(encoding="utf-8"), hashlib.sha256(mesh.read_bytes()).hexdigest()
        named = re.compile(f'(mesh = "parts/{re.escape(mesh.name)}"\n[^[]*?sha256 = ")[0-9a-f]*')
        job.write_text(named.sub(lambda m: m[1] + found, old), encoding="utf-8")


if __name__ == "__main__":
    main()

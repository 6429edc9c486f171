"""Random jobs of known answer: plates and blocks with bores, slots and thin walls, hardware that fits them or not."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import dataclass, field

from manifold3d import Manifold

from planner.mesh import Solid
from tests.shapes import cylinder, solid_of

SCREWS_MM = (2.0, 2.5, 3.0, 4.0, 5.0)
PINS_MM = (2.0, 3.0, 4.0, 5.0, 6.0)
WOOD_MM = (2.845, 3.505, 4.166)
WEBBING_MM = (15.0, 20.0, 25.0)
SETTINGS = {
    "layer_height_mm": (0.12, 0.2, 0.36, 0.5),
    "line_width_mm": (0.4, 0.6, 0.8),
    "nozzle_c": (190.0, 230.0, 280.0),
    "fan_percent": (30.0, 100.0),
    "infill_percent": (4.0, 20.0),
    "contours_n": (1, 2, 4),
    "infill_speed_mm_s": (60.0, 160.0),
    "first_layer_speed_mm_s": (20.0, 70.0),
}
"""Settings that jobs may state, such as go and such as do not."""
FITS = {"machine-screw": "sliding", "dowel-pin": "turning", "wood-screw": "pilot", "binding-post": "turning"}


@dataclass(frozen=True, slots=True, kw_only=True)
class RandomJob:
    """The text of a job, and its meshes by name."""

    text: str
    solids: Mapping[str, Solid]


@dataclass(slots=True)
class _Device:
    """A device while it is drawn."""

    rng: random.Random
    tables: list[str] = field(default_factory=list)
    solids: dict[str, Solid] = field(default_factory=dict)


def random_job(seed: int) -> RandomJob:
    """Return a job of one to three plates, each with bores, sometimes a slot, a thin rib, a channel or a nut's pocket."""
    rng = random.Random(seed)  # noqa: S311  the same jobs everywhere
    device = _Device(rng=rng)
    names = [f"plate{k + 1}" for k in range(rng.randint(1, 3))]
    kind, diameter = _hardware(rng)
    drawn = round(diameter * rng.choice((0.8, 0.95, 1.02, 1.1, 1.2, 1.35, 1.6)), 2)
    for name in names:
        _plate(device, name, drawn)
    _part_tables(device, names)
    device.tables.append(
        f'[[hardware]]\nname = "screw"\nkind = "{kind}"\ndiameter_mm = {diameter}\nbore_mm = {drawn}\n'
        f'fit = "{FITS[kind]}"\njoins = {names!r}\nstack_mm = 20.0\ncount = 2\n'
    )
    percent = rng.choice((60.0, 75.0, 90.0, 100.0, 100.0, 115.0, 140.0, 180.0))
    head = f'[job]\nname = "random {seed}"\nmaterial = "petg"\nmesh_unit = "mm"\n[size]\npercent = {percent}\n'
    return RandomJob(text=head + "".join(device.tables) + _settings(seed), solids=device.solids)


def _settings(seed: int) -> str:
    """Return settings for every third job, some of which do not go."""
    rng = random.Random(1000 + seed)  # noqa: S311  the same settings everywhere
    keys = rng.sample(list(SETTINGS), 3) if seed % 3 == 0 else []
    return "[settings]\n" + "".join(f"{key} = {rng.choice(SETTINGS[key])}\n" for key in keys)


def _hardware(rng: random.Random) -> tuple[str, float]:
    """Return what goes through the bores."""
    kind = rng.choice(("machine-screw", "machine-screw", "dowel-pin", "wood-screw", "binding-post"))
    sizes = {"machine-screw": SCREWS_MM, "dowel-pin": PINS_MM, "wood-screw": WOOD_MM, "binding-post": (4.0, 5.0, 6.0)}
    return kind, rng.choice(sizes[kind])


def _plate(device: _Device, name: str, drawn_mm: float) -> None:
    """Draw a plate: two bores near its ends, each with some wall beside it, blind or through; and what else it has."""
    rng = device.rng
    thick, wide = rng.choice((4.0, 6.0, 10.0, 14.0)), rng.uniform(40.0, 60.0)
    long = rng.choice((80.0, 120.0, 210.0))
    body = Manifold.cube((long, wide, thick))
    blind = rng.random() < 0.3
    for x_share, y_mm in ((0.12, drawn_mm / 2 + rng.choice((0.8, 1.4, 1.8, 3.0, 8.0))), (0.88, wide / 2)):
        start = thick * 0.35 if blind else -1.0
        body -= cylinder(drawn_mm, thick + 2, 48).translate((long * x_share, y_mm, start))
    if rng.random() < 0.5:
        webbing, slot = rng.choice(WEBBING_MM), rng.choice((14.5, 17.0, 21.5, 26.0))
        body -= Manifold.cube((4.0, slot, thick + 2)).translate((long * 0.4, (wide - slot) / 2, -1.0))
        device.tables.append(
            f'[[strap]]\nname = "strap {name}"\npart = "{name}"\nwebbing_mm = {webbing}\nslot_mm = {slot}\naround_mm = 190.0\n'
        )
    if rng.random() < 0.4:
        body += Manifold.cube((12.0, rng.choice((0.7, 1.0, 1.3, 2.5)), 10.0)).translate((long * 0.6, 4.0, thick - 0.5))
    if rng.random() < 0.3 and thick >= 6.0:
        cord, channel = rng.choice((1.0, 1.5, 2.0)), rng.choice((1.6, 2.2, 3.0))
        way = cylinder(channel, wide + 2, 32).rotate((-90.0, 0.0, 0.0))
        body -= way.translate((long * 0.75, -1.0, thick / 2))
        device.tables.append(
            f'[[cord]]\nname = "cord {name}"\npart = "{name}"\ndiameter_mm = {cord}\nchannel_mm = {channel}\npath_mm = 90.0\n'
        )
    device.solids[name] = solid_of(body, name)


def _part_tables(device: _Device, names: list[str]) -> None:
    """State every part, its duty too; some state their pose."""
    tables = []
    for name in names:
        duty = device.rng.choice(("load", "load", "cover", "shell"))
        pose = "pose = [0.0, 0.0, -1.0]\n" if device.rng.random() < 0.4 else ""
        tables.append(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "{duty}"\n{pose}')
    device.tables[:0] = tables

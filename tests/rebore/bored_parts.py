"""Parts with bores of every kind that re-boring meets: ten drawn here, and four published ones."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, radians

import numpy as np

from planner.mesh import Solid, read_solid
from tests.shapes import DATA, Manifold, cylinder, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\nignore_bores = true\n'
PIN = '[[hardware]]\nname = "pin {size}"\nkind = "dowel-pin"\ndiameter_mm = {pin}\nbore_mm = {size}\nfit = "turning"\njoins = ["a"]\n'


@dataclass(frozen=True, slots=True, kw_only=True)
class Bored:
    """A part, and the drawn sizes of its bores that take pins."""

    name: str
    solid: Solid
    sizes_mm: tuple[float, ...]

    @property
    def job_text(self) -> str:
        """The job that puts a pin 0.3 mm thinner than it is drawn into every bore."""
        return HEAD + "".join(PIN.format(size=size, pin=round(size - 0.3, 3)) for size in self.sizes_mm)


def _turned(body: Manifold) -> Manifold:
    """Return a body turned askew, as a mesh lies when it was exported from an assembly."""
    return body.rotate((17.0, 33.0, 51.0)).translate((13.7, -4.3, 8.1))


def _along(diameter: float, axis: str, n: int, at: tuple[float, float, float], long: float = 200.0) -> Manifold:
    """Return a long cylinder through a place, along an axis."""
    upright = cylinder(diameter, long, n).translate((0, 0, -long / 2))
    turn = {"x": (0, 90, 0), "y": (90, 0, 0), "z": (0, 0, 0)}[axis]
    return upright.rotate(turn).translate(at)


def _arc(outer: float, inner: float, high: float, gap: float, n: int) -> Manifold:
    """Return a shell about z with a gap of a width on its side toward y."""
    ring = cylinder(outer, high, n) - cylinder(inner, high + 2, n).translate((0, 0, -1))
    return ring - Manifold.cube((gap, outer, high + 2)).translate((-gap / 2, 0, -1))


def lug() -> Manifold:
    """Return an ear with a round end and one bore."""
    plate = Manifold.cube((26, 18, 8)).translate((0, -9, 0)) + cylinder(18, 8, 72).translate((26, 0, 0))
    return plate - _along(5.3, "z", 48, (26, 0, 0))


def cuff() -> Manifold:
    """Return an open shell with four radial bores in thickened pads and two in the bare shell."""
    shell = _arc(86, 78, 40, 30, 128)
    for angle in (60, 120):
        pad = cylinder(14, 8, 48).rotate((0, 90, 0)).translate((37, 0, 20)).rotate((0, 0, -angle))
        shell += pad - cylinder(78, 60, 128).translate((0, 0, -10))
    for angle in (60, 120):
        shell -= cylinder(5.2, 20, 40).rotate((0, 90, 0)).translate((30, 0, 20)).rotate((0, 0, -angle))
    for high in (10, 30):
        shell -= cylinder(3.4, 20, 32).rotate((0, 90, 0)).translate((30, 0, high)).rotate((0, 0, -90))
    return shell


def slanted() -> Manifold:
    """Return a plate with bores tilted by 15, 25 and 35 degrees, of 24, 48 and 64 sides."""
    plate = Manifold.cube((70, 30, 10))
    for at, tilt, n in ((14, 15, 24), (34, 25, 48), (54, 35, 64)):
        plate -= cylinder(4.4, 80, n).translate((0, 0, -40)).rotate((tilt, 0, 0)).translate((at, 15, 5))
    return plate


def jaw() -> Manifold:
    """Return a tapered jaw whose long bore is crossed by a cord's bore and by a pin's."""
    corners = [(0, -9, 0), (0, 9, 0), (60, -5, 0), (60, 5, 0), (0, -9, 20), (0, 9, 20), (60, -5, 12), (60, 5, 12)]
    body = Manifold.hull_points(np.array(corners, dtype=np.float64))
    body -= _along(4.3, "x", 48, (0, 0, 7))
    body -= _along(3.2, "z", 40, (20, 0, 0)) + _along(3.2, "z", 40, (44, 0, 0))
    return body - _along(5.3, "y", 48, (10, 0, 14.4))


def pipe() -> Manifold:
    """Return a tube with three cross bores that enter through its curved faces."""
    body = cylinder(34, 60, 120) - cylinder(24, 62, 120).translate((0, 0, -1))
    for high, turn in ((12, 0), (30, 40), (48, 90)):
        body -= _along(4.2, "x", 44, (0, 0, 0)).rotate((0, 0, turn)).translate((0, 0, high))
    return body


def bracket() -> Manifold:
    """Return an angle whose bores have counterbores."""
    body = Manifold.cube((50, 30, 7)) + Manifold.cube((7, 30, 36))
    for at in ((20, 15), (40, 15)):
        body -= _along(4.5, "z", 48, (*at, 0)) + _along(8.6, "z", 48, (*at, 4.2 + 50), long=100)
    for high in (15, 27):
        body -= _along(4.5, "x", 48, (0, 15, high)) + _along(8.6, "x", 48, (3.5 - 50, 15, high), long=100)
    return body


def blind() -> Manifold:
    """Return a block with blind bores: flat ones, one with a drill's point, and one from the side."""
    body = Manifold.cube((60, 30, 20))
    body -= cylinder(4.2, 20, 32).translate((12, 15, 8)) + cylinder(6.3, 20, 64).translate((28, 15, 12.5))
    point = Manifold.cylinder(4.2 / 2 * 0.6, 0.0, 4.2 / 2, 48) + cylinder(4.2, 30, 48).translate((0, 0, 4.2 / 2 * 0.6))
    body -= point.translate((44, 15, 6))
    return body - cylinder(6.3, 30, 48).rotate((0, 90, 0)).translate((52, 15, 9))


def domed() -> Manifold:
    """Return a dome with bores through its curved face: one beside its crown, two near its rim."""
    body = Manifold.sphere(30, 160).trim_by_plane((0, 0, 1), 8) - Manifold.sphere(22, 120)
    for x, y in ((6, 0), (-9, 8), (3, -12)):
        body -= _along(4.6, "z", 40, (x, y, 0))
    return body


def hinge() -> Manifold:
    """Return a leaf with two knuckles on one axis, and two screw holes in it."""
    leaf = Manifold.cube((40, 44, 5))
    for y in (0.0, 30.0):
        knuckle = cylinder(12, 14, 64).rotate((-90, 0, 0)).translate((0, y, 6)) + Manifold.cube((8, 14, 8)).translate(
            (0, y, 0)
        )
        leaf += knuckle
    leaf -= Manifold.cube((14, 16, 40)).translate((-7, 14, -10))
    leaf -= _along(5.3, "y", 56, (0, 22, 6))
    return leaf - _along(4.4, "z", 36, (28, 12, 0)) - _along(4.4, "z", 36, (28, 32, 0))


def spool() -> Manifold:
    """Return a wheel: a hub's bore and six bores through its web, between two rims."""
    body = cylinder(48, 16, 96)
    for face in (11.0, -11.0):
        body -= (cylinder(40, 16, 96) - cylinder(16, 18, 96).translate((0, 0, -1))).translate((0, 0, face))
    body -= _along(6.2, "z", 60, (0, 0, 0))
    for turn in range(0, 360, 60):
        body -= _along(3.4, "z", 30, (14 * cos(radians(turn)), 14 * cos(radians(turn - 90)), 0))
    return body


def published(file: str, unit: str = "mm") -> Solid:
    """Return a mesh of other people from the tests' data."""
    return read_solid(DATA / "bores" / file, name="a", unit=unit)


def bored_parts() -> list[Bored]:
    """Return all parts with their bores."""
    return [
        Bored(name="lug", solid=solid_of(lug()), sizes_mm=(5.3,)),
        Bored(name="cuff", solid=solid_of(cuff()), sizes_mm=(5.2, 3.4)),
        Bored(name="slanted plate", solid=solid_of(slanted()), sizes_mm=(4.4,)),
        Bored(name="jaw", solid=solid_of(_turned(jaw())), sizes_mm=(5.3, 4.3, 3.2)),
        Bored(name="pipe", solid=solid_of(pipe()), sizes_mm=(4.2,)),
        Bored(name="bracket", solid=solid_of(_turned(bracket())), sizes_mm=(4.5,)),
        Bored(name="blind bores", solid=solid_of(blind()), sizes_mm=(4.2, 6.3)),
        Bored(name="dome", solid=solid_of(_turned(domed())), sizes_mm=(4.6,)),
        Bored(name="hinge", solid=solid_of(hinge()), sizes_mm=(5.3, 4.4)),
        Bored(name="wheel", solid=solid_of(_turned(spool())), sizes_mm=(6.2, 3.4)),
        Bored(name="stepped plate", solid=published("stepped_plate.stl"), sizes_mm=(2.1,)),
        Bored(name="brace", solid=published("brace.stl"), sizes_mm=(5.0,)),
        Bored(name="plate of a linkage", solid=published("plate_side.stl"), sizes_mm=(2.5, 5.0)),
        Bored(name="angle block", solid=published("angle_block_inch.stl", "inch"), sizes_mm=(6.756, 3.969)),
    ]

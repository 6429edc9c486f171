"""A device of 25 parts and 8 joints, drawn in place: two fingers of three segments, a thumb, a lever, and one cord."""

from __future__ import annotations

import math
from itertools import pairwise
from pathlib import Path

from tests.shapes import Manifold, cylinder, solid_of, written

THICK_MM, WIDE_MM, LAP_MM = 9.0, 18.0, 4.2
BORE_MM, PIN_MM = 4.4, 4.0
BODY_BEGINS_MM = 11.0
ROUND_N = 120
"""Facets of a round edge: as fine as solid modellers export, 5,000 to 30,000 triangles a part."""
LONG_MM = (46.0, 38.0, 32.0)
FINGERS = {"index": (40.0, 22.0, 0.0), "ring": (40.0, -22.0, 0.0)}
"""Where the first joint of each finger stands, and which way it points, in degrees."""
THUMB = (0.0, 52.0, 60.0)
LEVER = (-40.0, -34.0, -90.0)
HEAD = """[job]
name = "two fingers, a thumb and a lever"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"
mesh_unit = "mm"
[size]
percent = 100.0
[drive]
joint = "wrist"
arm_mm = 30.0
range_deg = [-30.0, 45.0]
[use]
load_n = 10.0
grip_n = 5.0
pull_n = 200.0
"""


def rounded(x: float, y: float, z: float, radius: float = 1.6, facets: int = ROUND_N) -> Manifold:
    """Return a box on the origin with round edges."""
    ball = Manifold.sphere(radius, facets)
    ends = [(i, j, k) for i in (radius, x - radius) for j in (radius, y - radius) for k in (radius, z - radius)]
    return Manifold.batch_hull([ball.translate(at) for at in ends])


def lap(at_x: float, toward: float, low: float) -> Manifold:
    """Return half the thickness of a joint: a round knuckle, and the neck that holds it."""
    neck = Manifold.cube((BODY_BEGINS_MM + 4.0, 11.0, LAP_MM)).translate((0.0, -5.5, low))
    knuckle = cylinder(15.0, LAP_MM, ROUND_N).translate((0.0, 0.0, low))
    return (knuckle + (neck if toward > 0 else neck.mirror((1, 0, 0)))).translate((at_x, 0.0, 0.0))


def segment(long_mm: float, *, tip: bool) -> Manifold:
    """Return a finger's segment along x from one axis to the next, its cord channel beside the axes."""
    inner = long_mm - (3.0 if tip else BODY_BEGINS_MM) - BODY_BEGINS_MM
    body = rounded(inner, WIDE_MM, THICK_MM).translate((BODY_BEGINS_MM, -WIDE_MM / 2, 0.0))
    body += lap(0.0, 1.0, 0.0)
    bores = cylinder(BORE_MM, 40.0, 64).translate((0.0, 0.0, -10.0))
    if not tip:
        body += lap(long_mm, -1.0, THICK_MM - LAP_MM)
        bores += cylinder(BORE_MM, 40.0, 64).translate((long_mm, 0.0, -10.0))
    channel = cylinder(2.2, 200.0, 48).rotate((0, 90, 0)).translate((-10.0, -6.0, THICK_MM / 2))
    return body - bores - channel


def placed(body: Manifold, at: tuple[float, float, float]) -> Manifold:
    """Return a body turned about z and moved."""
    return body.rotate((0.0, 0.0, at[2])).translate((at[0], at[1], 0.0))


def along(at: tuple[float, float, float], far_mm: float) -> tuple[float, float, float]:
    """Return the place so far along a finger."""
    turn = math.radians(at[2])
    return at[0] + far_mm * math.cos(turn), at[1] + far_mm * math.sin(turn), at[2]


def palm() -> Manifold:
    """Return the plate that carries all, with a lap for each of what turns on it."""
    body = rounded(76.0, 84.0, THICK_MM, 2.0).translate((-48.0, -42.0, 0.0))
    for at in (*FINGERS.values(), THUMB, LEVER):
        body -= placed(Manifold.cube((40.0, 30.0, 40.0)).translate((-10.5, -15.0, -10.0)), at)
        body += placed(lap(0.0, -1.0, THICK_MM - LAP_MM), at)
        body -= placed(cylinder(BORE_MM, 40.0, 64).translate((0.0, 0.0, -10.0)), at)
    for at in FINGERS.values():
        channel = cylinder(2.2, 40.0, 48).rotate((0, 90, 0)).translate((-40.0, -6.0, THICK_MM / 2))
        body -= placed(channel, at)
    for x, y in ((-30.0, -10.0), (-30.0, 10.0), (10.0, 0.0)):
        body -= cylinder(3.4, 40.0, 48).translate((x, y, -10.0))
    return body


def shell(long_mm: float) -> Manifold:
    """Return half a round cuff above the palm, hollow, with a hole for each of two screws."""
    outer = cylinder(70.0, long_mm, 1200).rotate((0, 90, 0))
    inner = cylinder(64.0, long_mm + 2.0, 1200).rotate((0, 90, 0)).translate((-1.0, 0.0, 0.0))
    half = Manifold.cube((200.0, 200.0, 100.0)).translate((-100.0, -100.0, 0.0))
    foot = rounded(24.0, 40.0, 4.0, 1.2, 48).translate((-4.0, -20.0, -34.0))
    body = (outer - inner) - half
    body = (body + foot).translate((-36.0, 0.0, THICK_MM + 35.2))
    for y in (-10.0, 10.0):
        body -= cylinder(3.4, 40.0, 48).translate((-30.0, y, -10.0))
    return body


def bodies() -> dict[str, Manifold]:
    """Return every part by its name, where it stands."""
    found = {"palm": palm(), "cuff": shell(30.0)}
    for name, root in FINGERS.items():
        at = root
        for n, long_mm in enumerate(LONG_MM):
            tip = n == len(LONG_MM) - 1
            found[f"{name}-{n + 1}"] = placed(segment(long_mm, tip=tip), at)
            pad = rounded(long_mm - 20.0, 8.0, 2.4, 1.0, 84).translate((BODY_BEGINS_MM + 2.0, -3.0, THICK_MM + 0.1))
            found[f"{name}-pad-{n + 1}"] = placed(pad, at)
            at = along(at, long_mm)
    found["thumb"] = placed(segment(52.0, tip=True), THUMB)
    found["thumb-pad"] = placed(rounded(24.0, 8.0, 2.4, 1.0, 84).translate((14.0, -3.0, THICK_MM + 0.1)), THUMB)
    found["lever"] = placed(segment(60.0, tip=True), LEVER)
    found["knob"] = placed((rounded(16.0, 12.0, 6.0, 2.0, 96)).translate((34.0, -6.0, THICK_MM + 0.1)), LEVER)
    plate = rounded(26.0, 22.0, 3.0, 1.2, 84).translate((-3.0, -11.0, THICK_MM + 0.2))
    found["plate"] = plate - cylinder(3.4, 60.0, 48).translate((10.0, 0.0, -10.0))
    for n, (x, y) in enumerate(
        ((-44.0, -14.0), (-44.0, 6.0), (18.0, 14.0), (-10.0, 30.0), (-4.0, -34.0), (-26.0, 26.0))
    ):
        found[f"stud-{n + 1}"] = rounded(8.0, 8.0, 5.0, 1.5, 80).translate((x, y, -5.1))
    return found


def job_text() -> str:
    """Return the job of it."""
    names = list(bodies())
    text = [HEAD]
    soft = ("pad", "stud", "knob", "plate", "cuff")
    for name in names:
        duty = "cover" if any(word in name for word in soft) else "load"
        text.append(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "{duty}"\n')
    pairs = [("palm", "thumb"), ("palm", "lever")]
    for finger in FINGERS:
        chain = ["palm", *(f"{finger}-{n + 1}" for n in range(len(LONG_MM)))]
        pairs += pairwise(chain)
    for one, other in pairs:
        text.append(
            f'[[hardware]]\nname = "pin {other}"\nkind = "dowel-pin"\ndiameter_mm = {PIN_MM}\nbore_mm = {BORE_MM}\n'
            f'fit = "turning"\njoins = ["{one}", "{other}"]\nstack_mm = {THICK_MM}\n'
            f'[[joint]]\nbetween = ["{one}", "{other}"]\nhow = "turns"\nneeds_deg = [-12.0, 12.0]\n'
        )
    for number, (x, joined) in enumerate((("cuff", 2), ("plate", 1))):
        text.append(
            f'[[hardware]]\nname = "screw {number}"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\n'
            f'fit = "sliding"\njoins = ["palm", "{x}"]\nstack_mm = 13.0\ncount = {joined}\nnut = "plain"\n'
            f'[[joint]]\nbetween = ["palm", "{x}"]\nhow = "screwed"\n'
        )
    for name in names:
        if "pad" in name:
            text.append(f'[[joint]]\nbetween = ["{name.replace("-pad", "")}", "{name}"]\nhow = "glued"\n')
        if "stud" in name:
            text.append(f'[[joint]]\nbetween = ["palm", "{name}"]\nhow = "glued"\n')
    text.append('[[joint]]\nbetween = ["lever", "knob"]\nhow = "glued"\n')
    text.append(
        '[[cord]]\nname = "pull cord"\nkind = "braided"\npart = "index-1"\ndiameter_mm = 1.0\nchannel_mm = 2.2\n'
        'path_mm = 180.0\npath = ["palm:ch1", "index-1:ch1", "index-2:ch1", "index-3:end"]\ndrives = "index-3"\n'
        'from = "wrist"\n[[point]]\npart = "index-3"\nname = "end"\n'
    )
    return "".join(text)


def jointed(folder: Path) -> list[str]:
    """Lay the device."""
    for name, body in bodies().items():
        written(solid_of(body, name), folder / f"{name}.stl")
    text = job_text() + f"at_mm = {list(knot())}\n"
    (folder / "job.toml").write_text(text, encoding="utf-8")
    return ["job.toml"]


def knot() -> tuple[float, float, float]:
    """Return where the cord ends: in the tip segment's channel."""
    x, y, _ = along(FINGERS["index"], sum(LONG_MM[:2]) + BODY_BEGINS_MM + 1.0)
    return x, y - 6.0, THICK_MM / 2

"""Which slot a pin slides in: shown by its axis as drawn, or by being the only opening that takes it."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of, in_slot
from planner.survey import Slot, survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in ("base", "crank", "rocker")
)
PIN = '[[hardware]]\nname = "{}"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.4\nfit = "turning"\njoins = {}\n'


def _plate(long: float, z: float, bores: tuple[float, ...], slot: tuple[float, float] | None = None) -> Manifold:
    """Return a plate along y with bores of 5.4 mm at some places, and a slot of that width between two."""
    body = Manifold.cube((16, long, 5)).translate((-8, -10, z))
    for y in (*bores, *(slot or ())):
        body -= cylinder(5.4, 7, 64).translate((0, y, z - 1))
    if slot is not None:
        body -= Manifold.cube((5.4, slot[1] - slot[0], 7)).translate((-2.7, slot[0], z - 1))
    return body


def test_the_axis_of_a_crank_tells_its_slot_from_the_bore_beside_it(make_job: MakeJob) -> None:
    """Both pins are alike, and the rocker has one bore for two of them: the crank's lies over the slot as drawn."""
    bodies = {
        "base": _plate(70, 0.0, (0.0, 40.0)),
        "crank": _plate(70, 5.5, (40.0, 52.0)),
        "rocker": _plate(90, 11.0, (0.0,), (44.0, 66.0)),
    }
    solids = {name: solid_of(body, name) for name, body in bodies.items()}
    pins = (("axle", '["base", "crank"]'), ("pivot", '["base", "rocker"]'), ("pin", '["crank", "rocker"]'))
    job = make_job(HEAD + "".join(PIN.format(*pin) for pin in pins), **solids)
    found = claims_of(job, {name: survey(solid) for name, solid in solids.items()})

    assert [(one.part, one.hardware.name, one.fit) for one in found.slots] == [("rocker", "pin", "turning")]
    assert {one.hardware.name for one in found.claims if one.part == "rocker"} == {"pivot"}
    assert found.missing == ()


@pytest.mark.parametrize(("y", "inside"), [(0.0, True), (9.9, True), (10.1, False)])
def test_a_line_goes_through_a_slot_within_its_length(y: float, inside: bool) -> None:
    """A slot 20 mm long along y, met by an upright line; a level one goes through none."""
    slot = Slot(
        width_mm=5.0,
        length_mm=20.0,
        at_mm=(0.0, 0.0, 0.0),
        length_axis=(0.0, 1.0, 0.0),
        deep_axis=(0.0, 0.0, 1.0),
        depth_mm=6.0,
    )
    assert in_slot(slot, (0.5, y, 30.0), (0.0, 0.0, -1.0)) is inside
    assert not in_slot(slot, (0.5, y, 0.0), (1.0, 0.0, 0.0))

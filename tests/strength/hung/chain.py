"""A worn plate on two straps, an arm screwed on it, a finger that turns on the arm; a tab on it that carries nothing."""

from __future__ import annotations

from planner.assembly import claims_of
from planner.finding import Vec3
from planner.mechanism import STILL, PointLoad
from planner.mesh import Solid
from planner.strength.hung.hung_loads import HungLoads, hung_loads
from planner.strength.loads.part_supports import supports_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TIP_MM = (200.0, 0.0, 18.0)
STRAPS_MM, SCREWS_MM, PIN_MM = (-90.0, -10.0), (-60.0, -30.0), 100.0
PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "{1}"\n'
SCREW = (
    '[[hardware]]\nname = "{0}"\nkind = "machine-screw"\ndiameter_mm = {3}\njoins = {1}\nbore_mm = {2}\nfit = "{4}"\n'
)
STRAP = '[[strap]]\nname = "strap"\npart = "plate"\nwebbing_mm = 25.0\nslot_mm = 26.0\ncount = 2\n'
USE = "[use]\nload_n = 10.0\n"


def solids() -> dict[str, Solid]:
    """Return the parts as drawn in place."""
    plate = Manifold.cube((100, 40, 6)).translate((-100, -20, 0))
    for x in STRAPS_MM:
        plate -= Manifold.cube((4, 26, 20), True).translate((x, 0, 3))
    arm = Manifold.cube((180, 30, 8)).translate((-70, -15, 6)) - cylinder(5.3, 40, 48).translate((PIN_MM, 0, -5))
    for x in SCREWS_MM:
        plate, arm = (body - cylinder(4.4, 40, 48).translate((x, 0, -5)) for body in (plate, arm))
    arm -= cylinder(3.4, 40, 48).translate((40, 0, -5))
    tab = Manifold.cube((40, 14, 8)).translate((33, -7, 14)) - cylinder(3.4, 60, 48).translate((40, 0, -5))
    tab -= cylinder(2.7, 60, 48).translate((66, 0, -5))
    finger = Manifold.cube((110, 16, 8)).translate((94, -8, 14)) - cylinder(5.3, 60, 48).translate((PIN_MM, 0, -5))
    bodies = {"plate": plate, "arm": arm, "tab": tab, "finger": finger}
    return {name: solid_of(body, name) for name, body in bodies.items()}


def hung(
    make_job: MakeJob, *, worn: str = STRAP, use: str = USE, way: str = "load_dir = [0.0, 0.0, -1.0]\n"
) -> HungLoads:
    """Return the weight at the finger's tip, straight down unless it may hang any way."""
    bodies = solids()
    text = '[job]\nname = "x"\nmaterial = "petg"\n' + PART.format("plate", "shell") + PART.format("arm", "load")
    text += PART.format("tab", "load") + PART.format("finger", "load") + way
    text += SCREW.format("mount", '["plate", "arm"]', 4.4, 4.0, "sliding")
    text += SCREW.format("pivot", '["arm", "finger"]', 5.3, 5.0, "turning")
    text += SCREW.format("tab screw", '["arm", "tab"]', 3.4, 3.0, "sliding")
    text += SCREW.format("end screw", '["tab"]', 2.7, 2.5, "sliding") + worn + use
    job = make_job(text, **bodies)
    surveys = {name: survey(solid) for name, solid in bodies.items()}
    claims, frames = claims_of(job, surveys).claims, dict.fromkeys(bodies, STILL)
    down: Vec3 = (0.0, 0.0, -1.0)
    found = hung_loads(
        job,
        claims,
        frames,
        bodies,
        lambda copy: supports_of(job, copy, bodies, surveys, claims, frames),
        {"finger": (PointLoad(copy="finger", at_mm=TIP_MM, force_n=down),)},
        {},
    )
    assert found is not None
    return found

"""A jaw on a plate with a cord and an elastic, all of it known by hand: surveys are written, not measured."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from planner.assembly import Claim, claims_of
from planner.job import Job, read_job
from planner.mechanism import Mechanism, mechanism_of
from planner.mechanism.cord_effects.cord_on_joint import StrungCord, strung_cords
from planner.mesh import Solid
from planner.survey import Survey
from tests.mechanism.cord.path.known_parts import bore, survey_of
from tests.shapes import Manifold, cylinder, solid_of, written

TEXT = """
[job]
name = "one jaw"
printer = "bench-220"
material = "petg"
settings = "standard-0.4"

[[part]]
name = "plate"
mesh = "plate.stl"
duty = "load"

[[part]]
name = "jaw"
mesh = "jaw.stl"
duty = "load"

[[place]]
part = "plate"

[[place]]
part = "jaw"
at_mm = [0.0, 0.0, 5.0]

[[hardware]]
name = "pin"
kind = "dowel-pin"
diameter_mm = 5.0
bore_mm = 5.6
fit = "turning"
joins = ["plate", "jaw"]

[[joint]]
between = ["plate", "jaw"]
how = "turns"
rest_deg = 40.0
needs_deg = [0.0, 40.0]

[[cord]]
name = "pull"
part = "plate"
diameter_mm = 1.0
channel_mm = 2.0
path = ["plate:[-60, -14, 7.5]", "jaw:hook"]
drives = "jaw"
from = "wrist"
grip_at_mm = [60.0, 0.0, 2.5]

[[cord]]
name = "band"
kind = "elastic"
part = "plate"
diameter_mm = 1.0
channel_mm = 2.0
path = ["plate:[-60, 10, 7.5]", "jaw:[0, 10, 2.5]"]
force_n = 5.0
rate_n_per_mm = 0.1

[[point]]
part = "jaw"
name = "hook"
at_mm = [0.0, -14.0, 2.5]

[drive]
joint = "wrist"
arm_mm = 40.0
range_deg = [-10.0, 30.0]

[use]
grip_n = 10.0
"""


@dataclass(frozen=True, kw_only=True)
class OneJaw:
    """The device as the room wants it."""

    job: Job
    solids: dict[str, Solid]
    surveys: dict[str, Survey]
    claims: tuple[Claim, ...]
    mechanism: Mechanism

    def strung(self, job: Job | None = None) -> dict[str, StrungCord | str]:
        """Return its cords, or those of a changed job."""
        return strung_cords(job or self.job, self.solids, self.surveys, self.claims, self.mechanism, {})

    def with_cord(self, **changes: object) -> Job:
        """Return its job with changes to the pulling cord."""
        pull, band = self.job.cords
        return replace(self.job, cords=(replace(pull, **changes), band))  # type: ignore[arg-type]


def one_jaw(folder: Path) -> OneJaw:
    """Return a jaw of 70 x 10 x 5 mm that turns about the origin on a plate of 5 mm."""
    hole = cylinder(5.6, 20.0, 48).translate((0, 0, -5))
    solids = {
        "plate": solid_of(Manifold.cube((80.0, 60.0, 5.0)).translate((-65.0, -30.0, 0.0)) - hole, "plate"),
        "jaw": solid_of(Manifold.cube((70.0, 10.0, 5.0)).translate((-6.0, -5.0, 0.0)) - hole + _horns(), "jaw"),
    }
    surveys = {name: survey_of(name, (bore(1, 0.0, 0.0, 2.5, 5.6, 5.0),)) for name in solids}
    return _read(folder, TEXT, solids, surveys)


def _horns() -> Manifold:
    """Return what the hook and the band's end are tied to: rods that weigh nothing."""
    rods = Manifold.cube((0.1, 24.0, 0.1)).translate((-0.05, -14.0, 2.45))
    return rods + Manifold.cube((14.0, 0.1, 0.1)).translate((-14.0, -0.05, 2.45)) - cylinder(5.6, 20.0, 48)


def two_jaws(folder: Path, bands_n: int = 2) -> OneJaw:
    """Return the same jaw twice, mirrored: about (0, 30), and turned over about (0, -30), on one plate.

    Eyes, hooks and bands lie to each jaw as they do to the one; the job writes the way of the first alone.
    """
    hole = cylinder(5.6, 20.0, 48).translate((0, 0, -5))
    plate = Manifold.cube((80.0, 120.0, 5.0)).translate((-65.0, -60.0, 0.0))
    for y in (30.0, -30.0):
        plate -= hole.translate((0.0, y, 0.0))
    jaw = Manifold.cube((70.0, 10.0, 5.0)).translate((-6.0, -5.0, 0.0)) - hole + _horns()
    solids = {"plate": solid_of(plate, "plate"), "jaw": solid_of(jaw, "jaw")}
    surveys = {
        "plate": survey_of("plate", tuple(bore(n, 0.0, y, 2.5, 5.6, 5.0) for n, y in ((1, 30.0), (2, -30.0)))),
        "jaw": survey_of("jaw", (bore(1, 0.0, 0.0, 2.5, 5.6, 5.0),)),
    }
    text = TEXT.replace('mesh = "jaw.stl"\n', 'mesh = "jaw.stl"\ncount = 2\n')
    text = text.replace("at_mm = [0.0, 0.0, 5.0]", "at_mm = [0.0, 30.0, 5.0]\n" + OTHER)
    text = text.replace("plate:[-60, -14, 7.5]", "plate:[-60, 16, 7.5]").replace("-60, 10, 7.5", "-60, 40, 7.5")
    text = text.replace('name = "pull"\n', 'name = "pull"\ncount = 2\n')
    text = text.replace('name = "band"\n', f'name = "band"\ncount = {bands_n}\n')
    return _read(folder, text, solids, surveys)


OTHER = '[[place]]\npart = "jaw#2"\nat_mm = [0.0, -30.0, 10.0]\nturn = [1, 0, 0, 180]\n'


def _read(folder: Path, text: str, solids: dict[str, Solid], surveys: dict[str, Survey]) -> OneJaw:
    """Write a device and read it."""
    for name, solid in solids.items():
        written(solid, folder / f"{name}.stl")
    (folder / "job.toml").write_text(text, encoding="utf-8")
    job = read_job(folder / "job.toml")
    claims = claims_of(job, surveys).claims
    mechanism = mechanism_of(job, solids, surveys, claims)
    assert mechanism is not None
    return OneJaw(job=job, solids=solids, surveys=surveys, claims=claims, mechanism=mechanism)

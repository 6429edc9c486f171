"""What stands on the bed, and parts at size: planted faults are found, and right settings get no word."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Finding, Verdict
from planner.job import Job, read_material, read_printer, read_settings, shipped_names
from planner.layers import PartEstimate, estimate_part
from planner.mesh import Solid, posed
from planner.plan import openings_of
from planner.rules import settings_findings
from planner.scale import DRAWN
from planner.sourced import stated
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cuboid, solid_of

HERE, WORK = Path(), Verdict.GO_WITH_WORK
TEXT = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "cover"\nskin_side = true\npose = [0, 0, -1]\n'
OWN = {
    "line.first",
    "layer.even",
    "flow.first",
    "flow.heat",
    "speed.outer",
    "speed.travel",
    "acceleration.least",
    "bed.soft",
    "speed.flexible",
    "support.angle",
    "brim.width",
    "part.layers",
    "bore.lines",
    "warp.span",
    "support.cost",
    "bore.crown",
    "support.inside",
    "bridge.speed",
    "bridge.cool",
    "layers.volume",
}


def _told(job: Job, material: str, changes: dict[str, Any], *, geometry: bool = False) -> dict[str, Finding]:
    """Return what is not plain go, by rule."""
    values: dict[str, Any] = {key: value if isinstance(value, str) else stated(value) for key, value in changes.items()}
    own = replace(job, settings=replace(job.settings, **values))
    plastic, solids = read_material(material, HERE), {}
    if geometry:
        from planner.mesh import read_solid

        solids = {part.name: read_solid(part.mesh, name=part.name) for part in job.parts}
    found = settings_findings(
        own,
        plastic,
        surveys={name: survey(solid) for name, solid in solids.items()},
        estimates={
            name: estimate_part(
                posed(solid, (0.0, 0.0, -1.0)),
                settings=own.settings,
                printer=own.printer,
                material=plastic,
                openings=openings_of(survey(solid), solid, solid, (0.0, 0.0, -1.0), (1.0, 1.0, 1.0), mirrored=False),
            )
            for name, solid in solids.items()
        },
        downs={part.name: part.pose for part in job.parts if part.pose},
        scale=DRAWN,
    )
    return {finding.rule: finding for finding in found if finding.verdict is not Verdict.GO or finding.caution}


@pytest.mark.parametrize(
    ("rule", "changes"),
    [
        ("support.angle", {"self_supporting_deg": 75.0}),
        ("support.angle", {"self_supporting_deg": 10.0}),
        ("brim.width", {"brim_mm": 0.5}),
        ("brim.width", {"brim_mm": 30.0}),
        ("spacing.parts", {"spacing_mm": 0.5}),
    ],
)
def test_a_planted_fault_is_found(rule: str, changes: dict[str, float], make_job: MakeJob) -> None:
    """One wrong number each; common practice, no source."""
    assert rule in _told(make_job(TEXT, a=cuboid(40, 30, 10)), "petg", changes)
    assert rule not in _told(make_job(TEXT, a=cuboid(40, 30, 10)), "petg", {})


@pytest.mark.parametrize("material", ["petg", "pla"])
@pytest.mark.parametrize("profile", shipped_names("settings"))
@pytest.mark.parametrize("printer", ["bench-220", "small-180", "cabinet-250", "large-350", "round-240"])
def test_shipped_settings_get_no_word_of_these_rules(
    material: str, profile: str, printer: str, make_job: MakeJob
) -> None:
    """Thirty right combinations: nothing of it for the materials that an open frame prints."""
    job = make_job(TEXT, a=cuboid(40, 30, 10))
    own = replace(job, settings=read_settings(profile, HERE), printer=read_printer(printer, HERE))

    assert not OWN & set(_told(own, material, {}))


@pytest.mark.parametrize(
    ("rule", "solid"),
    [
        ("part.layers", cuboid(20, 20, 0.4)),
        ("bore.lines", bored_plate(20, 20, 4, [(10, 10, 0.9, 32)])),
        (
            "bore.crown",
            solid_of(
                Manifold.cube((30, 30, 20))
                - Manifold.cylinder(60, 6, 6, 48, center=True).rotate((90, 0, 0)).translate((15, 15, 10))
            ),
        ),
        ("support.cost", solid_of(Manifold.cube((4, 20, 20)) + Manifold.cube((40, 20, 1.2)).translate((0, 0, 18.8)))),
        ("support.skin", solid_of(Manifold.cube((4, 20, 20)) + Manifold.cube((40, 20, 1.2)).translate((0, 0, 18.8)))),
    ],
    ids=["layers", "small bore", "crown", "support cost", "support on skin"],
)
def test_what_a_part_needs_is_told(rule: str, solid: Any, make_job: MakeJob) -> None:
    """Each solid has one thing that its settings should mind."""
    assert rule in _told(make_job(TEXT, a=solid), "petg", {}, geometry=True)


def test_a_long_part_that_warps_wants_a_brim(make_job: MakeJob) -> None:
    """150 mm of ABS without a brim; with one of 5 mm, or in PLA, nothing is said."""
    job = make_job(TEXT, a=cuboid(150, 20, 5))

    assert "warp.span" in _told(job, "abs", {}, geometry=True)
    assert "warp.span" not in _told(job, "abs", {"brim_mm": 5.0}, geometry=True)
    assert "warp.span" not in _told(job, "pla", {}, geometry=True)


def _lying_bore(diameter: float) -> Solid:
    """Return a block with a bore along y."""
    bore = Manifold.cylinder(60, diameter / 2, diameter / 2, 64, center=True).rotate((90, 0, 0))
    return solid_of(Manifold.cube((34, 30, 34), True) - bore)


def test_support_in_a_bore_is_told_and_has_to_come_out(make_job: MakeJob) -> None:
    """A bore with a level axis of 20 mm is filled; one of 6 mm is not, and a bore through two lugs has no wall between them."""
    lugs = Manifold.cube((34, 8, 20)) + Manifold.cube((34, 8, 20)).translate((0, 22, 0)) + Manifold.cube((34, 30, 4))
    lugs += Manifold.cube((34, 30, 3)).translate((0, 0, 20))
    bore = Manifold.cylinder(80, 3, 3, 64, center=True).rotate((90, 0, 0)).translate((17, 0, 12))

    assert _told(make_job(TEXT, a=_lying_bore(20)), "petg", {}, geometry=True)["support.inside"].verdict is WORK
    assert "support.inside" not in _told(make_job(TEXT, a=_lying_bore(6)), "petg", {}, geometry=True)
    assert "support.inside" not in _told(make_job(TEXT, a=solid_of(lugs - bore)), "petg", {}, geometry=True)
    assert "support.cost" not in _told(make_job(TEXT, a=_lying_bore(20)), "petg", {"support": "none"}, geometry=True)


def test_bridges_want_to_be_slow_and_cooled(make_job: MakeJob) -> None:
    """A gate 5 mm wide."""
    gate = solid_of(Manifold.cube((20, 20, 20)) - Manifold.cube((5, 30, 10)).translate((8, -5, 0)))
    job = make_job(TEXT, a=gate)

    assert not {"bridge.speed", "bridge.cool"} & set(_told(job, "petg", {}, geometry=True))
    assert _told(job, "petg", {"bridge_speed_mm_s": 90.0}, geometry=True)["bridge.speed"].verdict is WORK
    assert "bridge.cool" in _told(job, "petg", {"fan_percent": 0.0}, geometry=True)


@pytest.mark.parametrize(("toward", "verdict"), [((0, 0, -1), "go-with-work"), ((0, 0, 1), "go")])
def test_support_on_the_skin_side_is_work(toward: tuple[int, int, int], verdict: str, make_job: MakeJob) -> None:
    """A T stands on its stem: support stands on what looks down, so only a skin side that does is spoilt."""
    tee = solid_of(Manifold.cube((4, 20, 20)) + Manifold.cube((40, 20, 1.2)).translate((0, 0, 18.8)))
    job = make_job(TEXT.replace("skin_side = true", f"skin_toward = {list(toward)}"), a=tee)
    found = settings_findings_of(job, tee)

    assert found["support.skin"].verdict.value == verdict


def settings_findings_of(job: Job, solid: Solid) -> dict[str, Finding]:
    """Return all findings of one part as it stands."""
    petg = read_material("petg", HERE)
    estimate = estimate_part(posed(solid, (0.0, 0.0, -1.0)), settings=job.settings, printer=job.printer, material=petg)
    found = settings_findings(
        job,
        petg,
        surveys={"a": survey(solid)},
        estimates={"a": estimate},
        downs={"a": (0.0, 0.0, -1.0)},
        scale=DRAWN,
    )
    return {finding.rule: finding for finding in found}


def test_layers_that_lose_matter_are_a_hold(make_job: MakeJob) -> None:
    """Sections that hold a tenth less than the mesh cannot be right, whatever the layers."""
    box = cuboid(20, 20, 10)
    job, petg = make_job(TEXT, a=box), read_material("petg", HERE)
    estimate = estimate_part(posed(box, (0.0, 0.0, -1.0)), settings=job.settings, printer=job.printer, material=petg)
    lost = replace(estimate, sections_mm3=0.9 * estimate.sections_mm3)

    def told(one: PartEstimate) -> Verdict:
        found = settings_findings(
            job, petg, surveys={"a": survey(box)}, estimates={"a": one}, downs={"a": (0.0, 0.0, -1.0)}, scale=DRAWN
        )
        return next(finding.verdict for finding in found if finding.rule == "layers.volume")

    assert told(estimate) is Verdict.GO
    assert told(lost) is Verdict.HOLD

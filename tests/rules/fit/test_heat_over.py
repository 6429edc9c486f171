"""Heat: places at their high end against what a material stands, with published figures beside ours."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import read_environments, read_material, shipped_names
from planner.rules.fit.heat_over import heat_finding, hottest, too_hot
from tests.conftest import MakeJob
from tests.shapes import cuboid

HERE = Path()
TEXT = '[job]\nname = "x"\nmaterial = "{}"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n[use]\n{}\n'
DEFLECTS_C = {"pla": (52, 58), "petg": (65, 76), "abs": (85, 98), "asa": (86, 100), "pa12": (95, 130), "pc": (128, 140)}
"""Heat deflection under 0.45 MPa (ISO 75-2, method B), usual ranges, from memory."""
SERVICE_C = {"pla": (40, 50), "petg": (55, 65), "abs": (70, 85), "asa": (75, 90), "pc": (110, 130)}
"""Highest service temperatures in tables of plastics, from memory: PETG near 60, ABS near 80."""


@pytest.mark.parametrize(
    ("material", "kept", "verdict"),
    [
        ("petg", 'kept = ["car"]', Verdict.NO_GO),
        ("pla", 'kept = ["car"]', Verdict.NO_GO),
        ("abs", 'kept = ["car"]', Verdict.GO),
        ("petg", 'kept = ["garden"]', Verdict.GO),
        ("pla", 'kept = ["garden"]', Verdict.NO_GO),
        ("pla", 'kept = ["house"]', Verdict.GO),
        ("petg", 'kept = ["house", "car"]', Verdict.NO_GO),
        ("petg", "hottest_c = 60.0", Verdict.GO),
        ("petg", "hottest_c = 60.5", Verdict.NO_GO),
        ("petg", 'kept = ["hot-wash"]', Verdict.NO_GO),
    ],
)
def test_a_material_must_stand_the_hottest_place(make_job: MakeJob, material: str, kept: str, verdict: Verdict) -> None:
    """PETG, used up to 60 C, fails a parked car (76 C: Grundstein et al. 2009) and stands a garden."""
    job = make_job(TEXT.format(material, kept), a=cuboid(40, 30, 10))
    assert job.material is not None

    assert heat_finding(job, job.material).verdict is verdict


def test_a_place_that_nobody_stated_is_asked_for(make_job: MakeJob) -> None:
    """Without a place nothing is no-go; a material that fails a parked car says so and asks, ABS need not."""
    job = make_job(TEXT.format("petg", "skin = true"), a=cuboid(40, 30, 10))
    assert job.material is not None
    found = heat_finding(job, job.material)
    stands = heat_finding(job, read_material("abs", HERE))

    assert found.verdict is Verdict.GO
    assert "76 °C" in found.caution
    assert "Where is the device kept" in found.question
    assert (stands.caution, stands.question) == ("", "")
    assert hottest(job) is None


def test_check_judges_heat_and_printer(make_job: MakeJob) -> None:
    """A check needs no layers to say that PETG fails in a car and that ABS wants a closed printer."""
    from datetime import date

    from planner.plan import prepare
    from planner.rules import check

    found = {}
    for material in ("petg", "abs"):
        ready = prepare(make_job(TEXT.format(material, 'kept = ["car"]'), a=cuboid(40, 30, 10)), date(2026, 12, 1))
        found[material] = {f.rule: f.verdict for f in check(ready.bound, 100.0).findings}

    assert (found["petg"]["heat.over"], found["petg"]["material.suits"]) == (Verdict.NO_GO, Verdict.GO)
    assert (found["abs"]["heat.over"], found["abs"]["material.suits"]) == (Verdict.GO, Verdict.HOLD)


@pytest.mark.parametrize("name", DEFLECTS_C)
def test_service_lies_ten_degrees_under_heat_deflection(name: str) -> None:
    """Each service temperature is the middle or the low end of heat deflection less 10 C, and lies in other tables."""
    service, (low, high) = read_material(name, HERE).service_c, DEFLECTS_C[name]

    assert low - 10 <= service.value <= (low + high) / 2 - 10 + 0.5
    assert name not in SERVICE_C or SERVICE_C[name][0] <= service.value <= SERVICE_C[name][1]


def test_every_material_is_used_under_its_softening() -> None:
    """No shipped material is used as warm as it softens, and a profile without the figure gets 20 C under softening."""
    for name in shipped_names("materials"):
        material = read_material(name, HERE)
        assert material.service_c.value <= material.softens_c.value - 10.0


def test_places_are_those_of_the_publication() -> None:
    """Parked cars: 41 to 76 C, 68 C on clear summer days (Grundstein, Meentemeyer and Dowd 2009)."""
    car = read_environments()["car"].hottest_c

    assert (car.low, car.value, car.high) == (41.0, 68.0, 76.0)
    assert "2009" in car.source


@pytest.mark.parametrize(
    ("material", "use", "verdict"),
    [
        ("pla", 'kept = ["car"]\nhottest_c = 40.0', Verdict.HOLD),
        ("pla", 'kept = ["car"]\nhottest_c = 42.0', Verdict.GO),
        ("abs", 'kept = ["car"]\nhottest_c = 40.0', Verdict.GO),
        ("pla", 'kept = ["car"]\nhottest_c = 50.0', Verdict.NO_GO),
        ("pla", 'kept = ["house"]\nhottest_c = 20.0', Verdict.GO),
    ],
)
def test_a_temperature_that_a_stated_place_never_is_as_cool_as_holds(
    make_job: MakeJob, material: str, use: str, verdict: Verdict
) -> None:
    """A parked car is 41 °C at least (Grundstein et al. 2009): 40 °C contradicts it, where that decides."""
    job = make_job(TEXT.format(material, use), a=cuboid(40, 30, 10))
    assert job.material is not None

    assert heat_finding(job, job.material).verdict is verdict


def test_a_device_is_too_hot_only_over_what_its_material_is_used_at(make_job: MakeJob) -> None:
    """PETG, used up to 60 C: a garden no, a parked car yes, a place that nobody stated no."""
    for use, hot in (('kept = ["garden"]', False), ('kept = ["car"]', True), ("skin = true", False)):
        assert too_hot(make_job(TEXT.format("petg", use), a=cuboid(40, 30, 10)), read_material("petg", HERE)) is hot


@pytest.mark.parametrize(("hottest_c", "told"), [(55.0, False), (55.5, True), (60.0, True), (60.5, False)])
def test_heat_between_the_ends_of_a_service_temperature_is_a_caution(
    make_job: MakeJob, hottest_c: float, told: bool
) -> None:
    """PETG is used up to 60 °C, 55 at its low end: what lies above that end and is no no-go is told."""
    petg = read_material("petg", HERE)
    assert (petg.service_c.low, petg.service_c.value) == (55.0, 60.0)
    job = make_job(TEXT.format("petg", f"hottest_c = {hottest_c}"), a=cuboid(40, 30, 10))

    assert bool(heat_finding(job, petg).caution) is told


def test_a_parked_car_that_is_just_as_hot_as_the_material_stands_is_no_caution(make_job: MakeJob) -> None:
    """76 °C in a car (Grundstein et al. 2009) and a material used up to 76 °C: no caution; up to 75.9 °C: one."""
    job, petg = make_job(TEXT.format("petg", "skin = true"), a=cuboid(40, 30, 10)), read_material("petg", HERE)
    car = read_environments()["car"].hottest_c.high
    found = [
        heat_finding(job, replace(petg, service_c=replace(petg.service_c, value=top, low=top, high=top)))
        for top in (car, car - 0.1)
    ]

    assert [bool(one.caution) for one in found] == [False, True]

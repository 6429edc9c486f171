"""Which material: heat decides first, then the printer, and every rejection says why."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.supplies import (
    choose_material,
    material_findings,
    suits_findings,
)
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


@pytest.mark.parametrize(
    ("kept", "spools", "choice", "rejected"),
    [
        ('kept = ["car"]', ["pla", "petg"], None, {"pla": "76 °C", "petg": ""}),
        ('kept = ["garden"]', ["pla", "petg"], "petg", {"pla": "60 °C"}),
        ('kept = ["house"]', ["pla", "abs"], "pla", {"abs": "enclosure"}),
        ("hottest_c = 30.0", ["tpu", "pla"], "pla", {"tpu": "rubber"}),
    ],
)
def test_heat_and_the_printer_choose_the_material(
    make_job: MakeJob, kept: str, spools: list[str], choice: str | None, rejected: dict[str, str]
) -> None:
    """PLA fails a car and a garden, ABS an open printer, TPU a load part; each rejection says why."""
    text = TEXT + "".join(f'[[spool]]\nmaterial = "{name}"\n' for name in spools) + f"[use]\n{kept}\n"
    made = choose_material(make_job(text, a=cuboid(40, 30, 10)))

    if choice:
        assert made.choice == choice
    for name, told in rejected.items():
        if name != made.choice:
            assert told in next(r.reason for r in made.rejected if r.material == name)


def test_heat_ends_it_and_a_printer_that_does_not_suit_holds(make_job: MakeJob) -> None:
    """PLA stated for a car is kept and fails by heat; ABS stands the car, and an open printer holds it."""
    found = {}
    for name in ("pla", "abs"):
        text = TEXT.replace('"x"', f'"x"\nmaterial = "{name}"') + '[use]\nkept = ["car"]\n'
        job = make_job(text, a=cuboid(40, 30, 10))
        assert job.material is not None
        found[name] = {f.rule: f.verdict for f in material_findings(job, job.material)}

    assert found["pla"] == {"heat.over": Verdict.NO_GO, "material.suits": Verdict.GO}
    assert found["abs"] == {"heat.over": Verdict.GO, "material.suits": Verdict.HOLD}


@pytest.mark.parametrize(("hottest_c", "rests"), [(40.0, "stated"), (58.0, "usual"), (64.0, "usual"), (70.0, "stated")])
def test_heat_rests_on_a_usual_value_where_makes_of_a_material_differ(
    make_job: MakeJob, hottest_c: float, rests: str
) -> None:
    """PETG is used up to 55 to 66 °C: inside that its make decides, outside it what the job states does."""
    text = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n[use]\n'
    job = make_job(text + f"hottest_c = {hottest_c}\n", a=cuboid(20, 20, 20))
    (heat,) = [finding for finding in suits_findings(job) if finding.rule == "heat.over"]

    assert heat.evidence == rests

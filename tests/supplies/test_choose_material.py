"""Which material: heat decides first, then the printer, and every rejection says why."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.supplies import (
    choose_material,
    material_findings,
)
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


@pytest.mark.parametrize(
    ("kept", "spools", "choice", "rejected"),
    [
        ('kept = ["car"]', ["pla", "petg"], None, {"pla": "47", "petg": ""}),
        ('kept = ["garden"]', ["pla", "petg"], "petg", {"pla": "50 °C"}),
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


def test_a_material_that_does_not_suit_holds(make_job: MakeJob) -> None:
    """PLA stated for a car at 70 C is kept, and the finding holds."""
    job = make_job(TEXT.replace('"x"', '"x"\nmaterial = "pla"') + '[use]\nkept = ["car"]\n', a=cuboid(40, 30, 10))

    assert job.material is not None
    assert [f.verdict for f in material_findings(job, job.material)] == [Verdict.HOLD]

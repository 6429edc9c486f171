"""Every rule judges a part in the material that the plan then chooses."""

from __future__ import annotations

from datetime import date

import pytest

from planner.plan import prepare
from planner.rules import check, chosen_material
from planner.supplies import choose_material
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of

JOB = (
    '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "pin"\npose = [0, -1, 0]\n'
    "[use]\nload_n = 20.0\nhottest_c = {hottest}\n"
)


@pytest.mark.parametrize("hottest", [30.0, 44.0, 60.0])
@pytest.mark.parametrize("spools", [("pla", "abs"), ("abs", "petg", "pla"), ("petg",)])
def test_strength_is_judged_in_the_material_that_is_chosen(
    make_job: MakeJob, hottest: float, spools: tuple[str, ...]
) -> None:
    """Its low strength along the layers stands in the reason, whatever else is at hand."""
    text = JOB.format(hottest=hottest) + "".join(f'[[spool]]\nmaterial = "{name}"\n' for name in spools)
    job = make_job(text, a=solid_of(cylinder(8.0, 40.0, 64)))
    chosen = chosen_material(job)
    found = [one for one in check(prepare(job, date(2026, 12, 1)).bound, 100.0).findings if one.rule == "strength.pin"]

    assert chosen is not None
    assert chosen.name == choose_material(job).choice
    assert found
    assert all(f"{chosen.strength_along_mpa.low:g} MPa along" in one.why for one in found)

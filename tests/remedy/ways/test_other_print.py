"""Another way to print: a pose, a printer, or lines that fit the wall."""

from __future__ import annotations

from planner.plan import prepare, proved_remedies
from tests.conftest import MakeJob
from tests.remedy.devices import PART, TODAY
from tests.shapes import cuboid


def test_a_thin_wall_takes_narrower_lines_where_the_nozzle_lays_them(make_job: MakeJob) -> None:
    """1.30 mm hold three lines of 0.43 mm, and not three of 0.45; 0.9 mm would need lines of 0.30 from a 0.4 nozzle."""
    (good,) = proved_remedies(prepare(make_job(PART, a=cuboid(40, 1.3, 30)), TODAY)).found
    fine = proved_remedies(prepare(make_job(PART, a=cuboid(40, 0.9, 30)), TODAY))

    assert good.text == "print with lines of 0.43 mm instead of 0.45 mm"
    assert "settings" not in {remedy.kind for remedy in fine.found}


def test_a_part_too_long_for_its_printer_goes_to_the_smallest_that_takes_it(make_job: MakeJob) -> None:
    """A bar of 240 x 200 mm lies on no bed of 220, and on one of 250 less its margins."""
    (remedy,) = proved_remedies(prepare(make_job(PART, a=cuboid(240, 200, 20)), TODAY)).found

    assert remedy.kind == "printer"
    assert remedy.does[0].put["printer"] == "cabinet-250"


def test_a_material_that_splits_in_the_open_goes_to_a_closed_printer(make_job: MakeJob) -> None:
    """A car at 76 °C softens PETG; ABS stands it, and an open printer does not print it: both change together."""
    job = make_job(PART.replace("[[part]]", '[use]\nkept = ["car"]\n\n[[part]]', 1), a=cuboid(40, 30, 20))
    (remedy,) = proved_remedies(prepare(job, TODAY)).found

    assert remedy.kind == "material"
    assert remedy.text.startswith("print in abs on cabinet-250 (")
    assert (remedy.does[0].put["material"], remedy.does[0].put["printer"]) == ("abs", "cabinet-250")
    assert remedy.leaves_verdict in ("go", "go-with-work")

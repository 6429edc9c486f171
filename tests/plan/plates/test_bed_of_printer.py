"""Printers of different size: large parts go to the bed that takes them, given plates to the bed that runs them."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from planner.errors import MeshError
from planner.finding import Verdict
from planner.job import printer_named, usable_ground
from planner.layers import estimate_part, plate_duration_s
from planner.mesh import read_solid
from planner.output import write_plan
from planner.packing import verify_plate, write_plates
from planner.plan import Plan, brought_to, make_plan, prepare
from planner.plan.audited import meant_plate
from planner.sourced import stated
from tests.conftest import MakeJob
from tests.shapes import cuboid

TODAY = date(2026, 11, 26)
HEAD = '[job]\nname = "x"\nmaterial = "petg"\nprinter = "small-180"\n'
PART = '[[part]]\nname = "{0}"\nmesh = "{0}.stl"\nduty = "shell"\npose = [0, 0, -1]\n'
PLAN = '[plan]\nprinters = ["small-180", "large-350"]\n'
START = "start = 2026-12-01T08:00:00\nfirst_article = false\nunattended = true\n"


def plan_of(make_job: MakeJob, more: str, **sizes: tuple[float, float, float]) -> Plan:
    """Return the plan of cuboids, one a part."""
    text = HEAD + "".join(PART.format(name) for name in sizes) + more
    return make_plan(prepare(make_job(text, **{name: cuboid(*size) for name, size in sizes.items()}), TODAY))


def hold(plan: Plan) -> None:
    """Prove every plate again on the bed of its own printer."""
    rings = {p.part.name: p.outline_mm for p in plan.parts}
    for plate in plan.plates:
        bed, spacing = printer_named(plan.job, plate.printer).bed, plan.job.settings.spacing_mm.value
        assert verify_plate(plate.placements, rings, bed=bed, spacing_mm=spacing) == ()


def test_a_part_too_large_for_the_first_printer_is_planned_on_the_second(make_job: MakeJob, tmp_path: Path) -> None:
    """300 mm lie on no bed of 180, and on one of 350: go with a caution, times and files of that printer."""
    plan = plan_of(make_job, PLAN + 'apart = [["long", "short"]]\n', long=(300, 40, 4), short=(40, 40, 4))
    alone = plan_of(make_job, "", long=(300, 40, 4), short=(40, 40, 4))
    by_part = {plate.placements[0].part: plate for plate in plan.plates}
    (found,) = [f for f in plan.findings if f.rule == "bed.over" and f.part == "long"]
    write_plan(plan, tmp_path / "out")
    read = read_solid(tmp_path / "out" / (by_part["long"].file.replace("3mf", "stl")))

    assert {part: plate.printer for part, plate in by_part.items()} == {"long": "large-350", "short": "small-180"}
    assert found.verdict is Verdict.GO
    assert "large-350" in found.caution
    hold(plan)
    assert read.bounds_mm[:, 0].mean() == pytest.approx(175.0, abs=0.01)  # the middle of 350 mm
    assert {f.rule for f in alone.findings if f.verdict is Verdict.NO_GO} == {"bed.over", "plate.unplaced"}
    material, large = plan.job.materials[0], printer_named(plan.job, "large-350")
    solid = next(p.posed for p in plan.parts if p.part.name == "long")
    there = estimate_part(solid, settings=plan.job.settings, printer=large, material=material)
    assert by_part["long"].duration_s == plate_duration_s([there], settings=plan.job.settings, printer=large)
    assert meant_plate(plan, by_part["long"].number).printer.name == "large-350"


def test_gaps_of_the_larger_bed_save_a_plate(make_job: MakeJob) -> None:
    """The short part finds room beside the long one, so there is one plate for the large printer, and it holds."""
    plan = plan_of(make_job, PLAN, long=(300, 40, 4), short=(40, 40, 4))
    (plate,) = plan.plates

    assert plate.printer == "large-350"
    assert {p.part for p in plate.placements} == {"long", "short"}
    hold(plan)


def test_the_window_ends_where_the_largest_bed_ends(make_job: MakeJob) -> None:
    """A bar of 300 x 40 x 4 on 334 mm of usable bed: by its diagonal it may grow to 1.38 (closed form, tested)."""
    plan = plan_of(make_job, PLAN, long=(300, 40, 4))
    high = plan.window.workable.nearest
    assert high is not None
    assert high.high_percent is not None
    most = high.high_percent / 100.0

    # a rectangle l x w turned by 45 degrees in a square of side a: (l + w) / sqrt 2 = a
    assert most == pytest.approx(334.0 * 2**0.5 / 340.0, rel=1e-6)


def test_plates_that_the_calendar_gives_away_lie_on_that_bed(make_job: MakeJob, tmp_path: Path) -> None:
    """Four full plates and two printers: those of the other one are in its own coordinates, in plan and files."""
    plan = plan_of(make_job, PLAN + START, **dict.fromkeys("abcd", (160, 160, 3)))
    write_plan(plan, tmp_path / "out")
    told = json.loads((tmp_path / "out" / "plan.json").read_text(encoding="utf-8"))
    given = {row["plate"]: row["printer"] for row in told["schedule"]}

    assert {plate.printer for plate in plan.plates} == {"small-180", "large-350"}
    assert {plate["number"]: plate["printer"] for plate in told["plates"]} == given
    hold(plan)
    for plate in told["plates"]:
        bed = printer_named(plan.job, plate["printer"]).bed
        x0, y0, x1, y1 = usable_ground(bed).bounds
        place = plate["placements"][0]
        assert (place["x_mm"], place["y_mm"]) == pytest.approx(((x0 + x1) / 2, (y0 + y1) / 2), abs=0.01)
        for ending in ("stl", "3mf"):
            file = tmp_path / "out" / plate["file"].replace("3mf", ending)
            assert read_solid(file).bounds_mm[:, 0].mean() == pytest.approx(place["x_mm"], abs=0.01)
    runs = {run.plate: run for run in plan.runs}
    for plate in plan.plates:
        start, end = runs[plate.number].start, runs[plate.number].end
        assert start is not None
        assert end is not None
        assert (end - start).total_seconds() == pytest.approx(plate.duration_s.value, abs=1.0)


def test_what_no_bed_takes_is_still_unplaced(make_job: MakeJob) -> None:
    """Half a metre fits neither: no-go, and the rest is planned."""
    plan = plan_of(make_job, PLAN, long=(520, 40, 4), short=(40, 40, 4))

    assert plan.verdict is Verdict.NO_GO
    assert [f.part for f in plan.findings if f.rule == "plate.unplaced"] == ["long"]
    assert [p.part for plate in plan.plates for p in plate.placements] == ["short"]


def test_parts_that_lie_together_go_to_the_bed_that_takes_all(make_job: MakeJob) -> None:
    """The small one follows the large one."""
    plan = plan_of(make_job, PLAN + 'together = [["long", "short"]]\n', long=(300, 40, 4), short=(40, 40, 4))

    assert [(plate.printer, len(plate.placements)) for plate in plan.plates] == [("large-350", 2)]
    assert not [f for f in plan.findings if f.rule == "plate.together"]


def test_a_printer_that_cannot_print_the_material_takes_no_part(make_job: MakeJob) -> None:
    """Another nozzle is no help: the large part stays a no-go."""
    job = make_job(HEAD + PART.format("long") + PLAN, long=cuboid(300, 40, 4))
    large = job.more_printers[-1]
    other = replace(job, more_printers=(replace(large, nozzle_mm=stated(0.8)),))
    plan = make_plan(prepare(other, TODAY))

    assert {f.rule for f in plan.findings if f.verdict is Verdict.NO_GO} == {"bed.over", "plate.unplaced"}


def test_plates_in_turn_move_only_where_that_head_has_room(make_job: MakeJob) -> None:
    """A plate laid out for one head is given to no printer whose head reaches farther, or was not measured."""
    plan = plan_of(make_job, PLAN, a=(40, 40, 4), b=(40, 40, 6))
    plate = replace(plan.plates[0], in_turn=True)
    large = printer_named(plan.job, "large-350")
    narrow = replace(large, head_clear_mm=stated(3.0), under_gantry_mm=stated(30.0))
    wide = replace(narrow, head_clear_mm=stated(60.0))

    assert brought_to(plate, narrow, plan.parts) is not None
    assert brought_to(plate, wide, plan.parts) is None
    assert brought_to(plate, large, plan.parts) is None


def test_a_file_that_leaves_its_bed_is_refused(make_job: MakeJob, tmp_path: Path) -> None:
    """Read back on the bed of its printer: a plate in another bed's coordinates is taken away."""
    plan = plan_of(make_job, PLAN, long=(300, 40, 4))
    wrong = tuple(replace(plate, printer="small-180") for plate in plan.plates)
    beds = {p.name: p.bed for p in (plan.job.printer, *plan.job.more_printers)}

    with pytest.raises(MeshError, match="extends beyond the bed"):
        write_plates(tmp_path, wrong, {p.part.name: p.posed for p in plan.parts}, beds)

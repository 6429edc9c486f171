"""Bores of two sizes on one axis: one question for the piece that goes through both, none where two pieces go in."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from manifold3d import Manifold

from planner.assembly import claims_of, given_edits
from planner.assembly.doubts.bore_groups import BoreGroup, bore_groups
from planner.assembly.doubts.shared_axes import one_shank
from planner.job import Job, job_of_folder, read_printer, with_edits
from planner.mesh import Solid
from planner.plan import Prepared, prepare
from planner.rules import open_doubts
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of, written

TEXT = (
    '[job]\nname = "x"\nmesh_unit = "mm"\nmaterial = "petg"\n'
    '[[part]]\nname = "fork"\nmesh = "fork.stl"\nduty = "load"\n[[part]]\nname = "lever"\nmesh = "lever.stl"\nduty = "load"\n'
)


def _hinge(fork_mm: float, lever_mm: float) -> dict[str, Solid]:
    """Return a fork of two plates 5 mm thick and 10.4 mm apart, and a lever of 10 mm between them, in place, along x."""

    def plate(x_mm: float, thick_mm: float, bore_mm: float, tall_mm: float) -> Manifold:
        eye = Manifold.cube((thick_mm, 16, tall_mm)).translate((x_mm, -8, -8))
        return eye - cylinder(bore_mm, 60, 96).rotate((0, 90, 0)).translate((-20, 0, 0))

    fork = plate(0, 5, fork_mm, 40) + plate(15.4, 5, fork_mm, 40) + Manifold.cube((20.4, 16, 8)).translate((0, -8, 24))
    return {"fork": solid_of(fork, "fork"), "lever": solid_of(plate(5.2, 10, lever_mm, 20), "lever")}


def _groups(make_job: MakeJob, solids: dict[str, Solid]) -> tuple[BoreGroup, ...]:
    return bore_groups(make_job(TEXT, **solids), {name: survey(solid) for name, solid in solids.items()})


def test_a_pivot_that_is_wider_in_its_lever_is_one_piece(make_job: MakeJob) -> None:
    """3.2 mm in the fork, 3.5 in the lever: one question on three bores, one screw; by size alone it would be two."""
    (group,) = _groups(make_job, _hinge(3.2, 3.5))

    assert group.id == "bores-3.2-3.5-fork"
    assert len(group.every) == 3
    assert group.lever
    assert group.pieces_n({"fork": 1, "lever": 1}, "machine-screw") == 1


def test_what_no_one_piece_fits_is_asked_by_size(make_job: MakeJob) -> None:
    """3.2 and 6 mm on one axis: nothing in stock serves both."""
    assert [group.wider for group in _groups(make_job, _hinge(3.2, 6.0))] == [None, None]


@pytest.mark.parametrize(
    ("narrow_mm", "wide_mm", "serves"),
    [(2.5, 3.4, True), (3.2, 3.4, True), (4.0, 4.5, True), (3.4, 4.0, False), (3.2, 6.4, False), (2.5, 9.0, False)],
)
def test_a_shank_serves_both_within_iso_273(
    make_job: MakeJob, narrow_mm: float, wide_mm: float, *, serves: bool
) -> None:
    """M3: pilot 2.5, fine 3.2, medium 3.4; 4.0 is an insert's bore over M3, 6.4 a counterbore (ISO 273, ISO 4762)."""
    tables = make_job(TEXT, **_hinge(3.2, 3.5)).tables

    assert one_shank(narrow_mm, wide_mm, tables) is serves


@pytest.fixture(name="hinge", scope="module")
def _hinge_folder(tmp_path_factory: pytest.TempPathFactory) -> Prepared:
    folder = tmp_path_factory.mktemp("hinge")
    for name, solid in _hinge(3.2, 3.5).items():
        written(solid, folder / f"{name}.stl")
    job = job_of_folder(
        folder, printer=read_printer("bench-220", Path()), spools=(), mesh_unit="mm", printer_stated=True
    )
    return prepare(job, date(2026, 12, 1))


def _answered(hinge: Prepared, name: str) -> Job:
    doubts = open_doubts(hinge.job, hinge.surveys)
    return with_edits(hinge.job, given_edits(doubts, {"bores-3.2-3.5-fork": name}, "test"))


def test_an_answer_is_one_row_with_its_own_fit_in_each_part(hinge: Prepared) -> None:
    """The screw stands in the fork and the lever turns on it: fits, nut and number follow, in the job and its rules."""
    job = _answered(hinge, "m3-pivot")
    (screw,) = job.hardware

    assert (screw.count, screw.fit, screw.nut, screw.turns) == (1, "sliding", "locking", True)
    assert [(one.part, one.bore_mm, one.fit) for one in screw.other_bores] == [("lever", 3.5, "turning")]
    claims = claims_of(job, hinge.surveys).claims
    assert {(one.part, one.fit) for one in claims} == {("fork", "sliding"), ("lever", "turning")}
    assert len(claims) == 3


def test_a_pin_is_offered_that_stands_in_the_fork_and_turns_in_the_lever(hinge: Prepared) -> None:
    """The fit in the wider bore is its own."""
    (pin,) = _answered(hinge, "3mm-pin").hardware

    assert (pin.kind, pin.fit) == ("dowel-pin", "sliding")
    assert pin.other_bores[0].fit == "turning"

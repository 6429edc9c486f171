"""Doubts: few, stable, each closed by every answer of its own, and none about what a person stated."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from planner.assembly import with_guesses
from planner.assembly.doubts import Doubt, doubts_of
from planner.job import Job, job_of_folder, read_job, read_printer, with_edits
from planner.mesh import read_solid
from planner.survey import survey
from tests.assembly.by_hand.truths import DEVICES, scene
from tests.conftest import MakeJob
from tests.shapes import DATA, bored_plate

BORES = DATA / "bores"

BARE = '[job]\nname = "x"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'


@pytest.mark.parametrize("name", DEVICES)
def test_a_device_of_a_dozen_parts_asks_eight_questions_at_most(name: str) -> None:
    """Eight, nine and seventeen parts: at most eight questions, their ids apart, each default among its options."""
    doubts = doubts_of(*scene(name))

    assert len(doubts) <= 8
    assert len({doubt.id for doubt in doubts}) == len(doubts)
    assert all(doubt.option(doubt.default) is doubt.options[0] for doubt in doubts)


@pytest.mark.parametrize("name", DEVICES)
def test_every_feature_is_asked_about_once(name: str) -> None:
    """No bore, slot or duty stands in two questions, and every bore of every part in one."""
    job, surveys = scene(name)
    asked = [feature for doubt in doubts_of(job, surveys) for feature in doubt.features]
    bores = {(part, bore.id) for part, found in surveys.items() for bore in found.bores}

    assert len(set(asked)) == len(asked)
    assert bores <= set(asked)
    assert {(part.name, "") for part in job.parts} <= set(asked)


def _two_sizes(make_job: MakeJob, more: str = "") -> tuple[Job, tuple[Doubt, ...]]:
    """Return a plate with bores of two sizes, and its doubts."""
    plate = bored_plate(60, 40, 8, [(10, 10, 3.4, 96), (30, 10, 3.4, 96), (45, 20, 6.6, 96)])
    job = make_job(BARE + more, a=plate)
    return job, doubts_of(job, {"a": survey(plate)})


def test_bores_of_one_size_are_one_question(make_job: MakeJob) -> None:
    """Two bores of 3.4 mm and one of 6.6: two questions; M3 and M6 by ISO 273, medium, are the likeliest answers."""
    _, doubts = _two_sizes(make_job)

    assert [(doubt.id, doubt.default) for doubt in doubts] == [
        ("bores-3.4-through", "m3-screw"),
        ("bores-6.6-through", "m6-screw"),
    ]
    assert doubts[0].features == (("a", "b1"), ("a", "b2"))


def test_what_a_person_stated_is_not_asked(make_job: MakeJob) -> None:
    """Hardware and openings that are stated leave no question; a guessed screw leaves its own."""
    screw = '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 3.0\nbore_mm = 3.4\nfit = "sliding"\njoins = ["a"]\n'
    window = '[[open]]\nname = "w"\nparts = ["a"]\nbore_mm = 6.6\n'

    assert _two_sizes(make_job, screw + window)[1] == ()
    guessed = screw + 'guessed = ["fit", "diameter_mm"]\n'
    assert [doubt.id for doubt in _two_sizes(make_job, guessed + window)[1]] == ["bores-3.4-through"]


def test_hardware_without_a_fit_is_asked_by_kind(make_job: MakeJob) -> None:
    """Two screws without a fit are one question; the usual fit is its default."""
    screw = '[[hardware]]\nname = "{}"\nkind = "machine-screw"\ndiameter_mm = {}\nbore_mm = {}\njoins = ["a"]\n'
    _, doubts = _two_sizes(make_job, screw.format("s", 3.0, 3.4) + screw.format("t", 6.0, 6.6))

    assert [(doubt.id, doubt.default) for doubt in doubts] == [("fit-machine-screw", "sliding")]


def test_every_answer_closes_its_question(tmp_path: Path) -> None:
    """Plates of a published device: each answer, written into the started file, closes its question and no other.

    What goes through bores of several parts opens one: how many of it there are.
    """
    for name in ("plate_bottom", "plate_front", "stepped_plate"):
        shutil.copy(BORES / f"{name}.stl", tmp_path)
    bare = job_of_folder(tmp_path, printer=read_printer("bench-220", tmp_path))
    surveys = {part.name: survey(read_solid(part.mesh, name=part.name)) for part in bare.parts}
    job = with_guesses(bare, surveys)
    doubts = doubts_of(job, surveys)
    ids = {doubt.id for doubt in doubts}

    for doubt in doubts:
        for option in doubt.options:
            left = {one.id for one in doubts_of(with_edits(job, option.edits), surveys) if one.id[:6] != "count-"}
            assert left == (ids if option.name == "something" else ids - {doubt.id}), (doubt.id, option.name)
    every = [edit for doubt in doubts for edit in doubt.option(doubt.default).edits]
    assert doubts_of(with_edits(job, every), surveys) == ()


def test_the_sample_device_leaves_nothing_open(heron: Path) -> None:
    """Its job states what every part does and what goes through every opening: no question."""
    assert doubts_of(read_job(heron), scene("heron")[1]) == ()

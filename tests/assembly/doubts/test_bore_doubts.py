"""Doubts about bores and slots: rare sizes are asked together, the default is what the job holds already."""

from __future__ import annotations

from manifold3d import Manifold

from planner.assembly import claims_of
from planner.assembly.doubts.bore_doubts import answers_by_size, bore_doubts
from planner.job import with_edits
from planner.survey import survey
from tests.assembly.by_hand.truths import scene
from tests.conftest import MakeJob
from tests.shapes import cylinder, solid_of


def test_sizes_beyond_the_number_allowed_are_one_question() -> None:
    """Two questions for nine sizes: the one of the most bores, and all others together, with every bore in one of them."""
    job, surveys = scene("heron")
    few, all_ = bore_doubts(job, surveys, 2), bore_doubts(job, surveys, 99)

    assert [doubt.id for doubt in few] == ["bores-3.3-through", "bores-others"]
    assert {f for doubt in few for f in doubt.features} == {f for doubt in all_ for f in doubt.features}


def test_every_option_takes_the_tables_of_the_others_out() -> None:
    """No option leaves hardware of another behind: bores of one size have one answer."""
    job, surveys = scene("linkage")
    doubt = next(one for one in bore_doubts(job, surveys, 99) if one.id == "bores-3.1-through")
    for option in doubt.options:
        kept = {edit.name for edit in option.edits if edit.table == "hardware" and not edit.drop}
        gone = {edit.name for edit in option.edits if edit.table == "hardware" and edit.drop}

        assert len(kept) == (0 if option.name == "nothing" else 1)
        assert len(kept | gone) == len(doubt.options) - 1


def test_the_likeliest_answers_are_what_a_folder_is_guessed_to_hold() -> None:
    """The first answer to each size is the guess of the folder, record by record."""
    job, surveys = scene("linkage")
    first = {record.name for answers in answers_by_size(job, surveys) for record in answers[0].hardware}

    assert first == {hardware.name for hardware in job.hardware}


def test_an_answer_about_through_bores_leaves_the_blind_ones_of_the_same_part_open(make_job: MakeJob) -> None:
    """A plate with two through and one blind bore of 3.4 mm (M3, medium, ISO 273): two questions, answered one by one."""
    plate = solid_of(
        Manifold.cube((40.0, 20.0, 10.0))
        - cylinder(3.4, 30.0, 96).translate((8, 10, -10))
        - cylinder(3.4, 30.0, 96).translate((20, 10, -10))
        - cylinder(3.4, 30.0, 96).translate((32, 10, 3)),
        "a",
    )
    job = make_job('[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\n', a=plate)
    surveys = {"a": survey(plate)}
    through, blind = bore_doubts(job, surveys, 9)
    answered = with_edits(job, next(one for one in through.options if one.name == "m3-screw").edits)

    assert [(claim.bore.through, claim.hardware.name) for claim in claims_of(answered, surveys).claims] == [
        (True, "M3 screw in 3.4 mm")
    ] * 2
    assert [doubt.id for doubt in bore_doubts(answered, surveys, 9)] == [blind.id] == ["bores-3.4-blind"]
    both = with_edits(answered, next(one for one in blind.options if one.name == "nothing").edits)
    assert not bore_doubts(both, surveys, 9)
    assert len(claims_of(both, surveys).claims) == 2
    assert not claims_of(both, surveys).missing

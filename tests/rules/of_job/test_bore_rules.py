"""Bore rules are bound once to each claim, each edge and each bore that nothing claims."""

from __future__ import annotations

from collections import Counter

import pytest

from planner.assembly import claims_of
from planner.finding import Vec3, Verdict
from planner.job import Job
from planner.rules.of_job.bore_rules import bore_rules, edge_limit, undersize_of, work_on
from planner.rules.rule import Rule
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate

PART = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\npose = [0, 0, -1]\n'
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = 5.0\nbore_mm = 5.3\nfit = "turning"\njoins = ["a"]\n'
)
PLATE = bored_plate(60, 40, 8, [(10, 20, 5.3, 48), (40, 20, 9.0, 48)])
UP, SIDE, DOWN = (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 0.0, -1.0)


def _bound(job: Job, cords: frozenset[str] = frozenset()) -> list[Rule]:
    """Bind the bore rules of the plate."""
    measured = survey(PLATE)
    claims = claims_of(job, {"a": measured}).claims
    return bore_rules(job, job.parts[0], measured, claims, DOWN, set(cords))


def test_a_claimed_bore_has_its_fit_and_an_unclaimed_one_its_word(make_job: MakeJob) -> None:
    """One pin in one of two bores: tight and loose for it, an edge for each, and one word for the bore without any."""
    rules = Counter(rule.rule for rule in _bound(make_job(PART + PIN, a=PLATE)))

    assert rules["bore.tight"] == rules["bore.loose"] == 1
    assert rules["bore.edge"] == 2
    assert rules["bore.unclaimed"] == 1


def test_a_bore_that_a_cord_has_taken_is_not_called_unclaimed(make_job: MakeJob) -> None:
    """Its edge is still judged."""
    job = make_job(PART + PIN, a=PLATE)
    wide = next(bore.id for bore in survey(PLATE).bores if bore.drawn_diameter_mm > 8.0)
    rules = Counter(rule.rule for rule in _bound(job, frozenset({wide})))

    assert (rules["bore.unclaimed"], rules["bore.edge"]) == (0, 2)


@pytest.mark.parametrize(
    ("axis", "down", "upright"), [(UP, DOWN, True), (SIDE, DOWN, False), (SIDE, SIDE, True), (None, DOWN, False)]
)
def test_a_bore_shrinks_by_how_it_stands(make_job: MakeJob, axis: Vec3 | None, down: Vec3, upright: bool) -> None:
    """Along the way down it stands upright, across it lies; where its axis is unknown it counts as lying."""
    job = make_job(PART, a=PLATE)
    undersize = job.printer.undersize

    assert undersize_of(job, axis, down) == (undersize.upright_mm if upright else undersize.lying_mm, upright)


def test_the_wall_beside_a_bore_is_counted_in_lines(make_job: MakeJob) -> None:
    """A load part needs three lines of 0.45 mm, a cover two: 1.35 and 0.90 mm (by hand, limits and settings as shipped)."""
    load, cover = (make_job(PART.replace('"load"', f'"{duty}"'), a=PLATE) for duty in ("load", "cover"))

    assert edge_limit(load, load.parts[0])[0] == pytest.approx(1.35)
    assert edge_limit(cover, cover.parts[0])[0] == pytest.approx(0.90)


def test_work_speaks_of_a_bore_by_its_name_or_its_drawn_size(make_job: MakeJob) -> None:
    """Each way it is found, for that bore alone; work on a bore that the part has not is a hold."""
    narrow, wide = sorted(survey(PLATE).bores, key=lambda bore: bore.drawn_diameter_mm)
    for line, known in (("drawn_mm = 9.0", True), (f'bores = ["{wide.id}"]', True), ('bores = ["b9"]', False)):
        job = make_job(f'{PART}[[work]]\npart = "a"\n{line}\nkind = "drill"\nto_mm = 10.0\n', a=PLATE)
        missing = [rule.at(1.0) for rule in _bound(job) if rule.rule == "work.missing"]

        assert [bool(work_on(job, job.parts[0], bore).works) for bore in (narrow, wide)] == [False, known]
        assert [one.verdict for one in missing] == ([] if known else [Verdict.HOLD])

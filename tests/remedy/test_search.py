"""Every remedy that is shown works, and every work that a rule orders is proved: judged from the file, on random jobs."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from manifold3d import Manifold

from planner.finding import Verdict
from planner.job import Job, read_job, write_edits
from planner.plan import Prepared, prepare, proved_remedies
from planner.remedy import Remedy, told
from planner.rules import check
from tests.bench.every_case import cases
from tests.conftest import MakeJob
from tests.remedy.devices import PART
from tests.remedy.random_jobs import random_job
from tests.shapes import cuboid, solid_of

TODAY = date(2026, 12, 1)
Where = tuple[str, str]


def worst_by_place(ready: Prepared) -> dict[Where, int]:
    """Return how severe the worst answer is about each feature of each part, of all its rules."""
    found: dict[Where, int] = {}
    factor = ready.sizing.percent / 100.0
    for rule in ready.bound.every:
        place = (rule.part, rule.feature)
        found[place] = max(found.get(place, 0), rule.at(factor).verdict.severity)
    return found


def after(job: Job, remedy: Remedy, folder: Path) -> Prepared:
    """Write a remedy into a new job file and read, measure and judge that as a user's next check would."""
    target = write_edits(job, remedy.does, "test", folder / f"with-{remedy.n}.toml")
    return prepare(read_job(target), TODAY)


def faults_of(ready: Prepared, folder: Path) -> list[str]:
    """Return what is wrong with the remedies shown for a job: not settled, spoiled, or another verdict than promised."""
    before, faults = worst_by_place(ready), []
    findings = check(ready.bound, ready.sizing.percent).findings
    keys = {
        told(rule.at(ready.sizing.percent / 100.0)): (rule.rule, rule.part, rule.feature) for rule in ready.bound.every
    }
    remedies = proved_remedies(ready)
    unproved = {one for one, _ in remedies.unsettled}
    refused = [
        *(one for remedy in remedies.found for one in remedy.refused),
        *(one for _, each in remedies.unsettled for one in each),
    ]
    faults += [f"{one.text}: our own edit would not load: {one.why}" for one in refused if ".toml" in one.why]
    faults += [f"{f.why}: its work was not proved" for f in findings if told(f) in unproved and f.verdict.passes]
    for remedy in remedies.found:
        changed = after(ready.job, remedy, folder)
        now = worst_by_place(changed)
        checked = check(changed.bound, changed.sizing.percent)
        if checked.verdict is not remedy.leaves_verdict:
            faults.append(f"{remedy.text}: leaves {checked.verdict}, promised {remedy.leaves_verdict}")
        settled = {keys[one] for one in remedy.settles}
        for rule in changed.bound.every:
            finding = rule.at(changed.sizing.percent / 100.0)
            if (rule.rule, rule.part, rule.feature) in settled and not finding.verdict.passes:
                faults.append(f"{remedy.text}: {finding.why}")
        faults += [f"{remedy.text}: worse at {place}" for place, level in now.items() if level > before.get(place, 0)]
        faults += [] if remedy.settles else [f"{remedy.text}: settles nothing"]
        faults += [f"{one}: not in the check" for one in remedy.settles if one not in {told(f) for f in findings}]
    return faults


@pytest.mark.parametrize("seed", cases(12, 40))
def test_every_remedy_of_a_random_job_settles_its_findings_and_spoils_nothing(
    seed: int, make_job: MakeJob, tmp_path: Path
) -> None:
    """Each remedy is written into the job file; the new file, read and judged from scratch, keeps what was promised."""
    made = random_job(seed)
    ready = prepare(make_job(made.text, **made.solids), TODAY)

    assert faults_of(ready, tmp_path) == []


def test_a_remedy_for_settings_takes_the_place_of_one_that_does_less(make_job: MakeJob) -> None:
    """180 °C is too cold for PETG and for its flow: 220 °C would do for the first, 225 does for both (by hand)."""
    text = PART + "[settings]\nnozzle_c = 180.0\n"
    (remedy,) = proved_remedies(prepare(make_job(text, a=cuboid(40, 30, 10)), TODAY)).found

    assert remedy.text == "set nozzle_c = 225 (now 180)"
    assert {rule for rule, _, _, _ in remedy.settles} == {"nozzle.range", "flow.heat"}


def test_two_walls_get_one_nozzle(make_job: MakeJob, tmp_path: Path) -> None:
    """Plates of 0.93 and 1.00 mm: three lines of 0.33 mm hold in the thicker alone, lines of 0.3 mm in both (by hand)."""
    text = PART + '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\npose = [0, 0, -1]\n'
    for one, other in ((0.93, 1.0), (1.0, 0.93)):
        ready = prepare(make_job(text, a=cuboid(40, one, 30), b=cuboid(40, other, 30)), TODAY)
        (remedy,) = (one for one in proved_remedies(ready).found if one.kind == "nozzle")

        assert "nozzle of 0.3 mm" in remedy.text
        assert {part for rule, part, _, _ in remedy.settles if rule == "wall.thin"} == {"a", "b"}
        assert faults_of(ready, tmp_path) == []


def test_what_a_hand_files_is_told_and_not_that_no_remedy_was_found(make_job: MakeJob) -> None:
    """ISO 4032: an M6 nut is 10 mm across its flats; a pocket of 10.2 prints at 10.0 and is filed to 10.1."""
    pocket = Manifold.cylinder(5.2, 10.2 / 3**0.5, 10.2 / 3**0.5, 6)
    knob = (
        Manifold.cylinder(10.0, 12.0, 12.0, 96) - Manifold.cylinder(30.0, 3.2, 3.2, 96).translate((0, 0, -9)) - pocket
    )
    screw = (
        '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 6.0\nbore_mm = 6.4\nfit = "turning"\n'
        'joins = ["a"]\ncount = 1\nnut = "locking"\n'
    )
    ready = prepare(make_job(PART + screw, a=solid_of(knob, "a")), TODAY)
    seats = [f for f in check(ready.bound, 100.0).findings if f.rule == "seat.tight"]
    remedies = proved_remedies(ready)

    assert [f.verdict for f in seats] == [Verdict.GO_WITH_WORK]
    assert remedies.refused_for(seats[0]) == ()
    assert remedies.shown(seats)[0].remedy.startswith("file the flats")

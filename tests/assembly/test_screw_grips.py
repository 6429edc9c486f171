"""ScrewGrip: every screw has a nut, an insert or a thread of its own, or a hold says so."""

from __future__ import annotations

from dataclasses import replace
from types import SimpleNamespace
from typing import cast

import pytest

from planner.assembly import Claim, blind_findings, screw_grips, unheld_findings
from planner.finding import Verdict
from planner.job import Hardware, Job
from planner.survey import Bore
from tests.conftest import MakeJob
from tests.shapes import cuboid

PARTS = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\n' for n in "ab")
SCREW = (
    '[[hardware]]\nname = "screw"\nkind = "{kind}"\ndiameter_mm = {mm}\njoins = ["a", "b"]\nbore_mm = 3.4\n'
    "count = 4\n{more}"
)
NUT = (
    '[[hardware]]\nname = "nut"\nkind = "{kind}"\ndiameter_mm = {mm}\njoins = ["{part}"]\nbore_mm = 6.6\ncount = {n}\n'
)


@pytest.mark.parametrize(
    ("screw", "others", "loose_n"),
    [
        ({}, "", 4),
        ({"more": 'nut = "plain"\n'}, "", 0),
        ({"more": "pilot_mm = 2.6\n"}, "", 0),
        ({"more": 'fit = "pilot"\n'}, "", 0),
        ({"kind": "wood-screw", "mm": 3.5}, "", 0),
        ({}, NUT.format(kind="nut", mm=3.0, part="b", n=4), 0),
        ({}, NUT.format(kind="insert", mm=3.0, part="b", n=4), 0),
        ({}, NUT.format(kind="nut", mm=3.0, part="b", n=3), 1),
        ({}, NUT.format(kind="nut", mm=4.0, part="b", n=4), 4),
        ({}, NUT.format(kind="washer", mm=3.0, part="b", n=4), 4),
    ],
)
def test_pieces_that_nothing_holds_are_counted(
    make_job: MakeJob, screw: dict[str, object], others: str, loose_n: int
) -> None:
    """Four screws: a free nut, a pilot or a nut of their thread each hold them; a nut too few leaves one."""
    text = PARTS + SCREW.format(**{"kind": "machine-screw", "mm": 3.0, "more": "", **screw}) + others
    job = make_job(text, a=cuboid(20, 20, 5), b=cuboid(20, 20, 5))
    found = unheld_findings(job)

    assert [one.loose_n for one in screw_grips(job)] == [loose_n]
    assert [f.verdict for f in found] == [Verdict.HOLD if loose_n else Verdict.GO]
    assert bool(found[0].question) is bool(loose_n)


def test_nuts_are_dealt_so_that_as_many_screws_as_possible_are_held(make_job: MakeJob) -> None:
    """A nut in b serves both screws, one in a only the first: dealt in order, the second would go without."""
    text = PARTS + (
        '[[hardware]]\nname = "first"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a", "b"]\n'
        '[[hardware]]\nname = "second"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["b"]\n'
    )
    text += NUT.format(kind="nut", mm=3.0, part="b", n=1) + NUT.format(kind="nut", mm=3.0, part="a", n=1)
    job = make_job(text, a=cuboid(20, 20, 5), b=cuboid(20, 20, 5))

    assert [one.loose_n for one in screw_grips(job)] == [0, 0]


@pytest.mark.parametrize(
    ("more", "others", "verdict"),
    [
        ('fit = "turning"\npilot_mm = 2.6\n', "", Verdict.GO_WITH_WORK),
        ('fit = "turning"\n', NUT.format(kind="insert", mm=3.0, part="b", n=4), Verdict.GO_WITH_WORK),
        ('fit = "turning"\nnut = "locking"\n', "", Verdict.GO),
        ('fit = "sliding"\npilot_mm = 2.6\n', "", Verdict.GO),
        ('fit = "turning"\npilot_mm = 2.6\nguessed = ["fit"]\n', "", Verdict.GO),
    ],
)
def test_a_pivot_without_a_locking_nut_has_its_thread_secured(
    make_job: MakeJob, more: str, others: str, verdict: Verdict
) -> None:
    """A thread in plastic or an insert locks nothing where something turns on the screw; a guess orders no work."""
    text = PARTS + SCREW.format(kind="machine-screw", mm=3.0, more=more) + others
    (found,) = unheld_findings(make_job(text, a=cuboid(20, 20, 5), b=cuboid(20, 20, 5)))

    assert (found.verdict, bool(found.remedy)) == (verdict, verdict is Verdict.GO_WITH_WORK)
    assert bool(found.caution) is ("guessed" in more)


FREE_NUT = Hardware(name="M4", kind="machine-screw", diameter_mm=4.0, joins=("lid", "base"), nut="plain")
POST = replace(FREE_NUT, kind="binding-post", nut=None)
CUTS = replace(FREE_NUT, nut=None, fit="pilot")


@pytest.mark.parametrize(
    ("hardware", "part", "through", "n"),
    [
        (FREE_NUT, "base", False, 1),
        (FREE_NUT, "base", True, 0),
        (POST, "lid", False, 1),
        (POST, "base", False, 1),
        (CUTS, "base", False, 0),
    ],
)
def test_what_goes_on_from_behind_needs_a_through_bore(hardware: Hardware, part: str, through: bool, n: int) -> None:
    """A nut and a post's other half need the far side; a screw that cuts its thread does not."""
    bore = cast("Bore", SimpleNamespace(id="b1", through=through))
    job = cast("Job", SimpleNamespace(hardware=(hardware,)))
    found = blind_findings(job, [Claim(part=part, bore=bore, hardware=hardware, fit="held")])

    assert [one.verdict for one in found] == [Verdict.HOLD] * n

"""Hardware, gaps, cords, straps, padding and open bores: what a kind cannot have is refused, what is left out stays open."""

from __future__ import annotations

import pytest

from planner.errors import JobError
from tests.conftest import MakeJob
from tests.shapes import cuboid

HEAD = '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
SCREW = '[[hardware]]\nname = "s"\nkind = "machine-screw"\ndiameter_mm = 4.0\njoins = ["a"]\n'


def test_what_is_left_out_of_a_screw_stays_open(make_job: MakeJob) -> None:
    """No bore, nut or washers stated is not none of them: the check asks, and takes nothing for granted."""
    (screw,) = make_job(HEAD + SCREW, a=cuboid(10, 10, 10)).hardware

    assert (screw.bore_mm, screw.fit, screw.nut, screw.washers, screw.pilot_mm) == (None, None, None, None, None)
    assert screw.count == 1


def test_a_piece_may_sit_otherwise_in_one_part(make_job: MakeJob) -> None:
    """A pin held in its fork turns in the lever: the bore is that of the others where only the fit differs."""
    pin = (
        SCREW.replace("machine-screw", "dowel-pin") + 'fit = "held"\nother_bores = [{ part = "a", fit = "turning" }]\n'
    )
    (read,) = make_job(HEAD + pin, a=cuboid(10, 10, 10)).hardware

    assert read.turns
    assert (read.other_bores[0].part, read.other_bores[0].bore_mm, read.other_bores[0].fit) == ("a", None, "turning")


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        (SCREW.replace("machine-screw", "dowel-pin") + 'nut = "plain"\n', "a dowel-pin has none"),
        (SCREW.replace("machine-screw", "belt") + "washers = 1\n", "a belt has none"),
        (SCREW + "pitch_mm = 2.0\n", "a machine-screw has none"),
        (SCREW.replace("machine-screw", "bearing"), "outside is not stated"),
        (SCREW.replace("machine-screw", "machine-scrw"), "machine-screw"),
        (SCREW.replace("4.0", "0.0"), "diameter_mm"),
        (SCREW + 'other_bores = [{ part = "b", bore_mm = 3.4 }]\n', "not among joins"),
        (SCREW + 'other_bores = [{ part = "a" }]\n', "nothing is said to differ"),
        (SCREW + 'pilot_mm = 3.4\nother_bores = [{ part = "a", bore_mm = 4.4 }]\n', "last part's bore already"),
        ('[[gap]]\nbetween = ["a", "a"]\n', "two different parts"),
        ('[[open]]\nname = "o"\nparts = ["a"]\n', "either a bore or a slot"),
        ('[[open]]\nname = "o"\nparts = ["a"]\nbore_mm = 5.0\nslot_mm = 9.0\n', "either a bore or a slot"),
        ('[[padding]]\npart = "a"\nthickness_mm = 5.0\n', "neither area_mm2 nor outline"),
        ('[[padding]]\npart = "a"\nthickness_mm = 5.0\noutline = "no.svg"\n', "there is no file no.svg"),
        ('[[strap]]\nname = "s"\npart = "a"\nwebbing_mm = -25.0\n', "webbing_mm"),
        ('[[cord]]\nname = "c"\npart = "a"\ndiameter_mm = 1.0\nkind = "elastick"\n', "elastic"),
    ],
)
def test_what_cannot_be_meant_is_refused(text: str, wrong: str, make_job: MakeJob) -> None:
    """Each mistake is one sentence that names the key, or what is near."""
    with pytest.raises(JobError, match=wrong):
        make_job(HEAD + text, a=cuboid(10, 10, 10))

"""A screw with a pilot in its last part is another screw there."""

from __future__ import annotations

from planner.assembly import claims_of
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate


def test_the_last_part_is_claimed_by_its_pilot(make_job: MakeJob) -> None:
    """The lid's bore of 3.4 mm is slid through, the box's of 2.5 mm takes the thread; neither is left over."""
    lid, box = bored_plate(30, 30, 4, [(10, 10, 3.4, 96)]), bored_plate(30, 30, 10, [(10, 10, 2.5, 96)], deep=8)
    text = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\n' for n in ("lid", "box"))
    text += (
        '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["lid", "box"]\n'
        'bore_mm = 3.4\nfit = "sliding"\npilot_mm = 2.5\n'
    )
    found = claims_of(make_job(text, lid=lid, box=box), {"lid": survey(lid), "box": survey(box)})

    assert {claim.part: claim.fit for claim in found.claims} == {"lid": "sliding", "box": "pilot"}
    assert found.missing == ()

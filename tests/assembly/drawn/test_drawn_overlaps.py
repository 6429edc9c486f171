"""Parts that stand in each other as drawn: told beside a device drawn in place, and never of parts drawn by themselves."""

from __future__ import annotations

import pytest

from planner.assembly import claims_of, overlap_findings
from planner.finding import Finding, Verdict
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid

TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    + "".join(f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in "abc")
    + '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a", "b"]\ncount = 1\n'
    "bore_mm = 3.4\n"
)
LOWER = bored_plate(40, 30, 8, [(10, 10, 3.4, 96)])
UPPER = LOWER.moved((0.0, 0.0, 8.0))
HOOK = cuboid(10, 10, 3)


def _found(make_job: MakeJob, hook: Solid, more: str = "", upper: Solid = UPPER) -> tuple[Finding, ...]:
    """Return what is told of two plates on each other, and a hook that nothing joins to them."""
    solids = {"a": LOWER, "b": upper, "c": hook}
    job = make_job(TEXT + more, **solids)
    claims = claims_of(job, {name: survey(solid) for name, solid in solids.items()}).claims
    return overlap_findings(job, solids, claims)


def test_a_hook_that_nothing_joins_is_told_where_it_stands_in_a_plate(make_job: MakeJob) -> None:
    """10 x 3 mm of it stand 1 mm deep in the plate's side: 30 mm³ by hand, a hold with its place and a question."""
    (found,) = _found(make_job, HOOK.moved((39.0, 12.0, 2.0)))

    assert (found.verdict, found.rule) == (Verdict.HOLD, "mate.overlap")
    assert found.measured == pytest.approx(30.0)
    assert found.at_mm == pytest.approx((39.5, 17.0, 3.5))
    assert "a and c share 30 mm³ of room" in found.why
    assert found.question


def test_a_hook_beside_the_plate_or_a_hundredth_in_it_is_not(make_job: MakeJob) -> None:
    """It touches at x = 40; 0.1 mm deeper is what a press fit takes."""
    assert _found(make_job, HOOK.moved((40.0, 12.0, 2.0))) == ()
    assert _found(make_job, HOOK.moved((39.9, 12.0, 2.0))) == ()


def test_parts_drawn_round_their_own_origins_are_not(make_job: MakeJob) -> None:
    """All three overlap, and nothing shows that any two share a frame."""
    assert _found(make_job, HOOK, upper=LOWER) == ()


@pytest.mark.parametrize(
    ("more", "verdicts"),
    [
        ('[[place]]\npart = "c"\nat_mm = [0.0, 50.0, 0.0]\n', []),
        ('[[joint]]\nbetween = ["a", "c"]\nhow = "snapped"\n', []),
        ('[[place]]\npart = "a"\n[[place]]\npart = "c"\n', [Verdict.NO_GO]),
    ],
    ids=["drawn elsewhere", "springs open", "both stated in place"],
)
def test_what_a_person_states_settles_it(make_job: MakeJob, more: str, verdicts: list[Verdict]) -> None:
    """A place of its own or a snap hook ends the question; places as drawn make it a no-go."""
    assert [one.verdict for one in _found(make_job, HOOK.moved((39.0, 12.0, 2.0)), more)] == verdicts

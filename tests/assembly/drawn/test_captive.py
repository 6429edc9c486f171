"""Parts that cannot come to their places are asked about, until a person says how they come together."""

from __future__ import annotations

import pytest

from planner.assembly import captive_findings
from planner.finding import Verdict
from planner.mesh import Solid
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, solid_of

BALL = solid_of(Manifold.sphere(8.0, 16))
WALL = Manifold.cylinder(16.8, 14.0, 14.0, 32).translate((0.0, 0.0, -12.0))
SOCKET = solid_of(WALL - Manifold.sphere(8.3, 16))
TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\n' for name in ("ball", "socket")
)


def _held(make_job: MakeJob, ball: Solid, more: str = "") -> list[Verdict]:
    """Return what is told of a ball and a socket whose mouth is 13.5 mm wide."""
    solids = {"ball": ball, "socket": SOCKET}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    return [one.verdict for one in captive_findings(make_job(TEXT + more, **solids), solids, surveys, ())]


@pytest.mark.parametrize(
    ("more", "verdicts"),
    [
        ("", [Verdict.HOLD]),
        (
            '[[joint]]\nbetween = ["ball", "socket"]\nhow = "glued"\n',
            [Verdict.HOLD],
        ),
        ('[[joint]]\nbetween = ["ball", "socket"]\nhow = "snapped"\n', []),
        ('[[place]]\npart = "ball"\nat_mm = [0.0, 0.0, 40.0]\n[[place]]\npart = "socket"\n', []),
    ],
    ids=["nothing said", "it is glued", "it springs in", "it stands elsewhere"],
)
def test_a_ball_behind_a_narrow_mouth_is_a_question(make_job: MakeJob, more: str, verdicts: list[Verdict]) -> None:
    """16 mm does not go through 13.5 mm; that it is glued there does not say how it came there."""
    assert _held(make_job, BALL, more) == verdicts


def test_parts_that_are_not_drawn_in_place_are_not_asked_about(make_job: MakeJob) -> None:
    """Beside the socket, and where both stand in each other round an origin of their own."""
    assert _held(make_job, BALL.moved((40.0, 0.0, 0.0))) == []
    assert _held(make_job, BALL.moved((6.0, 0.0, 0.0))) == []

"""A joint about a printed peg is judged by the rule of its fit: move and check never disagree; by hand on both sides."""

from __future__ import annotations

from datetime import date

import pytest

from planner.finding import Verdict
from planner.mechanism.judging.move_peg import MovePeg, peg_rules
from planner.plan import prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = '[job]\nname = "x"\nmaterial = "petg"\n' + "".join(
    f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "shell"\npose = [0, 0, -1]\n' for name in ("base", "arm")
)
TEXT += '[[joint]]\nbetween = ["base", "arm"]\nhow = "turns"\n'
REAMED = '[[work]]\npart = "arm"\nkind = "ream"\nbores = ["b1"]\nto_mm = 6.2\n'


@pytest.mark.parametrize(
    ("bore_mm", "more", "percent", "play_mm", "verdict"),
    [
        (6.5, "", 100.0, 0.3, Verdict.GO),
        (6.3, "", 100.0, 0.1, Verdict.GO_WITH_WORK),
        (6.5, "", 75.0, 0.175, Verdict.GO_WITH_WORK),
        (6.3, REAMED, 100.0, 0.2, Verdict.GO),
    ],
)
def test_the_play_as_printed_decides_in_both(
    make_job: MakeJob, bore_mm: float, more: str, percent: float, play_mm: float, verdict: Verdict
) -> None:
    """A peg of 6 mm; 0.2 mm come off an upright bore, and what turns needs 0.2 mm: 6.5 s - 0.2 - 6 s and so on."""
    base = solid_of(Manifold.cube((40, 20, 4), True) + cylinder(6.0, 12.0, 64), "base")
    arm = solid_of(Manifold.cube((30, 24, 5), True).translate((0, 0, 7)) - cylinder(bore_mm, 20.0, 64), "arm")
    ready = prepare(make_job(TEXT + more, base=base, arm=arm), date(2026, 10, 10))
    assert ready.movement is not None
    (moves,) = peg_rules(ready.movement)
    (fits,) = (f for f in check(ready.bound, percent).findings if f.rule == "peg.tight")
    found = moves.at(percent / 100.0)

    assert isinstance(moves, MovePeg)
    assert (found.rule, found.part, found.verdict) == ("move.range", "arm", verdict)
    assert found.measured == pytest.approx(play_mm, abs=0.01)
    assert (found.measured, found.limit, found.why, found.remedy) == (fits.measured, fits.limit, fits.why, fits.remedy)
    assert moves.turns() == moves.inner.turns()

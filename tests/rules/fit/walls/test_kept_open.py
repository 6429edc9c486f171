"""A narrow gap within one mesh: open, closed, and where the answer hangs on the printer."""

from __future__ import annotations

import pytest

from planner.finding import Verdict
from planner.rules.fit.walls.gap_inside import GapInside
from planner.rules.fit.walls.kept_open import enough_percent, kept_open, open_from
from planner.sourced import Sourced
from planner.survey import InnerGap

LEAST = Sourced(value=0.3, low=0.2, high=0.4, kind="memory", source="from memory")
RULE = GapInside(part="hinge", gap=InnerGap(bodies_n=2, gap_mm=0.25, at_mm=(1.0, 2.0, 3.0)), least_mm=LEAST)


def test_too_little_is_asked_and_never_refused() -> None:
    """0.25 mm where 0.3 is kept open, 0.2 to 0.4 being usual: a hold with its question; 0.5 mm is open anyhow."""
    told = {"told": lambda has: f"{has} mm are left", "closed": "they fuse", "remedy": "wider", "question": "Does it?"}
    tight, wide = (kept_open(RULE, mm, LEAST, (1.0, 2.0, 3.0), **told) for mm in (0.25, 0.5))  # type: ignore[arg-type]

    assert (tight.verdict, tight.question, tight.remedy) == (Verdict.HOLD, "Does it?", "wider")
    assert tight.why.startswith("0.25 mm are left; this printer keeps 0.30 mm open")
    assert tight.why.endswith(": they fuse")
    assert "0.2 to 0.4 mm" in tight.caution
    assert (wide.verdict, wide.question, wide.remedy, wide.caution) == (Verdict.GO, "", "", "")


def test_it_stays_open_from_its_least_scale_on() -> None:
    """0.25 mm reach 0.3 mm at 120 % (0.3 / 0.25), to a rounding; the rule turns there."""
    (turn,) = open_from(0.25, LEAST)

    assert turn == pytest.approx(1.2, rel=5e-4)
    assert [RULE.at(turn * share).verdict for share in (0.999, 1.001)] == [Verdict.HOLD, Verdict.GO]
    assert float(enough_percent(0.25, LEAST)) >= 100.0 * turn - 1e-6

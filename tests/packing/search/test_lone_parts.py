"""A part with an opening lies round a zone of the bed, and nothing lies in that opening beside the zone."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import Bed
from planner.packing import Group, Item, lies_alone, pack, verify
from planner.plan import make_plan, prepare
from planner.rules import check
from tests.conftest import MakeJob
from tests.shapes import ROOT, Manifold, solid_of

ZONE = ((100.0, 100.0), (120.0, 100.0), (120.0, 120.0), (100.0, 120.0))
BED = Bed(shape="rectangle", size_mm=(220.0, 220.0), height_mm=140.0, margin_mm=5.0, zones_mm=(ZONE,))
PLAIN = Group(material="petg", colour="any", support=False, brim_mm=0.0)


def _square(mm: float, at_mm: float = 0.0) -> tuple[tuple[float, float], ...]:
    """Return the ring of a square."""
    return ((at_mm, at_mm), (at_mm + mm, at_mm), (at_mm + mm, at_mm + mm), (at_mm, at_mm + mm))


@pytest.mark.parametrize(("opening_mm", "fits"), [(140.0, True), (18.0, False)])
def test_a_frame_fits_where_its_opening_holds_the_zone(opening_mm: float, fits: bool) -> None:
    """By hand: a frame of 190 always covers the bed's middle, so only an opening wider than the zone's 20 helps."""
    frame = Item(
        part="frame", copies=2, rings=(_square(190.0), _square(opening_mm, (190.0 - opening_mm) / 2)), group=PLAIN
    )
    small = Item(part="small", copies=12, rings=(_square(20.0),), group=PLAIN, in_opening=True)
    packing = pack([frame, small], bed=BED, spacing_mm=4.0, seed=1, budget_s=1.0)

    assert lies_alone(frame, BED) is fits
    assert {part for part, _, _ in packing.unplaced} == (set() if fits else {"frame"})
    laid = [item for item in (frame, small) if fits or item is small]
    assert verify(packing.plates, laid, bed=BED, spacing_mm=4.0) == ()


def test_the_plan_answers_what_the_bed_rule_leaves_open(make_job: MakeJob, tmp_path: Path) -> None:
    """The check holds, for it looks for a clear convex piece; the plan's plate is proved, so the plan goes."""
    source = (ROOT / "profiles" / "printers" / "bench-220.toml").read_text(encoding="utf-8")
    bed = next(line for line in source.splitlines() if line.startswith("bed ="))
    own = bed.replace("height_mm = 240.0", "height_mm = 140.0").replace(
        "margin_mm = 5.0", f"margin_mm = 5.0, zones_mm = [{[list(corner) for corner in ZONE]}]"
    )
    profile = tmp_path / "zone.toml"
    profile.write_text(source.replace(bed, own), encoding="utf-8")
    ring = solid_of(Manifold.cube((190, 190, 6)) - Manifold.cube((140, 140, 20)).translate((25, 25, -5)))
    text = f'[job]\nname = "x"\nmesh_unit = "mm"\nmaterial = "petg"\nprinter = "{profile.as_posix()}"\n[size]\npercent = 100.0\n'
    ready = prepare(
        make_job(text + '[[part]]\nname = "ring"\nmesh = "ring.stl"\nduty = "shell"\n', ring=ring), date(2026, 11, 26)
    )
    before = next(f for f in check(ready.bound, 100.0).findings if f.rule == "bed.over")
    plan = make_plan(ready)
    after = next(f for f in plan.findings if f.rule == "bed.over")

    assert before.verdict is Verdict.HOLD
    assert after.verdict is Verdict.GO
    assert "plate 1 was proved" in after.why
    assert plan.verdict.passes

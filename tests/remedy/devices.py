"""Small devices of these tests: a plate with a pin in its bore, and how it stands."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from planner.plan import Prepared, prepare
from tests.conftest import MakeJob
from tests.shapes import bored_plate

TODAY = date(2026, 12, 1)
PART = (
    '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    "pose = [0, 0, -1]\n"
)
PIN = (
    '[[hardware]]\nname = "pin"\nkind = "dowel-pin"\ndiameter_mm = {pin_mm}\nbore_mm = {bore_mm}\nfit = "turning"\n'
    'joins = ["a"]\ncount = 2\n'
)


def pinned(
    make_job: MakeJob,
    pin_mm: float,
    bore_mm: float,
    *,
    y_mm: Sequence[float] = (20.0,),
    deep: float | None = None,
    more: str = "",
) -> Prepared:
    """Return a plate of 60 x 40 x 10 mm with a bore at each distance from its edge, and turning pins in them."""
    bores = [(15.0 + 15.0 * k, y, bore_mm, 96) for k, y in enumerate(y_mm)]
    text = PART + PIN.format(pin_mm=pin_mm, bore_mm=bore_mm) + more
    return prepare(make_job(text, a=bored_plate(60, 40, 10, bores, deep=deep)), TODAY)

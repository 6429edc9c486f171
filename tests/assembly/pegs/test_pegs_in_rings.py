"""A peg is for a bearing by its size; for a washer or a nut only where it is drawn there as well."""

from __future__ import annotations

import pytest

from planner.assembly import peg_in_ring
from planner.job import Hardware
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, cylinder, solid_of

TEXT = '[job]\nname = "x"\n' + "".join(f'[[part]]\nname = "{n}"\nmesh = "{n}.stl"\nduty = "shell"\n' for n in "ab")


@pytest.mark.parametrize(
    ("kind", "thick_mm", "off_mm", "found"),
    [
        ("bearing", 8.0, 0.0, "sure"),
        ("bearing", 8.0, 60.0, "by size"),
        ("bearing", 6.0, 0.0, ""),
        ("washer", 8.0, 0.0, "sure"),
        ("washer", 8.0, 60.0, ""),
        ("washer", 6.0, 0.0, ""),
    ],
)
def test_size_and_place_tell_whose_bore_it_is(
    make_job: MakeJob, kind: str, thick_mm: float, off_mm: float, found: str
) -> None:
    """A ring with a bore of 8 mm; parts that only share an axis, as those about one origin do, say nothing."""
    plate = Manifold.cube((40, 40, 10), True) - cylinder(22.2, 20.0, 96).translate((0, 0, -2))
    solids = {"a": solid_of(plate, "a"), "b": solid_of(cylinder(thick_mm, 30.0, 64).translate((off_mm, 0, -10)), "b")}
    surveys = {name: survey(solid) for name, solid in solids.items()}
    ring = Hardware(name="ring", kind=kind, diameter_mm=8.0, size_mm=22.0, joins=("a",))  # type: ignore[arg-type]
    (seat,) = surveys["a"].bores
    one = peg_in_ring(make_job(TEXT, **solids), surveys, "a", seat, ring, 8.0)

    assert (one is not None) is bool(found)
    if one is not None:
        assert (one.peg_part, one.peg.id, one.sure) == ("b", "p1", found == "sure")

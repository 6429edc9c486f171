"""The size of each piece as built: nuts, washers and inserts follow their screws."""

from __future__ import annotations

import pytest

from planner.finding import Finding, Verdict, Work
from planner.job import Hardware, read_tables
from planner.supplies.built.built_sizes import nearest_stock, pieces_of
from tests.conftest import MakeJob
from tests.shapes import cuboid

TEXT = (
    '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\n'
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a"]\nfit = "turning"\n'
    '[[hardware]]\nname = "its {kind}"\nkind = "{kind}"\ndiameter_mm = 3.0\njoins = ["a"]\nsize_mm = 7.0\n'
)


@pytest.mark.parametrize("kind", ["nut", "insert", "washer"])
def test_what_goes_with_a_screw_grows_with_it(make_job: MakeJob, kind: str) -> None:
    """The screw is taken as M4: so is its nut, insert or washer, and the stated outside of the M3 no longer counts."""
    job = make_job(TEXT.format(kind=kind), a=cuboid(20, 20, 5))
    taken = Work(kind="stock", hardware="screw", takes="M4 machine-screw", takes_mm=4.0)
    finding = Finding(
        rule="bore.loose", part="a", feature="screw in b1 (3.40 mm)", verdict=Verdict.GO_WITH_WORK, why="", work=taken
    )
    pieces = pieces_of(job, [finding])

    assert [piece.hardware.diameter_mm for piece in pieces] == [4.0, 4.0]
    assert pieces[1].hardware.size_mm is None
    assert pieces[1].locking is (kind == "nut")
    assert [piece.hardware.diameter_mm for piece in pieces_of(job, [])] == [3.0, 3.0]


def test_a_bearing_is_found_by_bore_and_outside() -> None:
    """Of three bearings with a bore of 8 mm, the one 19 mm wide is meant (ISO 15, from memory)."""
    bearing = Hardware(name="b", kind="bearing", diameter_mm=8.0, size_mm=19.0, joins=("a",))
    stock = nearest_stock(read_tables(), bearing)

    assert stock is not None
    assert stock.label == "8 × 19 × 6"

"""Work by hand as the job states it: told as an order."""

from __future__ import annotations

import pytest

from planner.job import HandWork, WorkKind


@pytest.mark.parametrize(
    ("kind", "order"),
    [
        ("drill", "drill to 3.2 mm"),
        ("ream", "ream to 3.2 mm"),
        ("bush", "glue in a bush bored 3.2 mm"),
        ("plug", "glue in a plug and drill it 3.2 mm"),
    ],
)
def test_each_kind_of_work_is_an_order(kind: WorkKind, order: str) -> None:
    """What is glued in makes a bore narrower; a drill and a reamer do not."""
    work = HandWork(part="a", kind=kind, to_mm=3.2, bores=("b1",))

    assert work.told == order
    assert work.fills is (kind in ("bush", "plug"))


def test_a_blind_bore_names_its_depth_stop() -> None:
    """How deep the drill may go stands in the order."""
    work = HandWork(part="a", kind="drill", to_mm=2.4, bores=("b1",), depth_mm=7.9)

    assert work.told == "drill to 2.4 mm, depth stop at 7.9 mm"


@pytest.mark.parametrize(("kind", "order"), [("sand", "sand to 3.2 mm"), ("file", "file to a width of 3.2 mm")])
def test_what_is_done_outside_is_no_work_on_bores(kind: WorkKind, order: str) -> None:
    """A peg is sanded, a width filed: no bore gets wider or narrower by it."""
    work = HandWork(part="a", kind=kind, to_mm=3.2, pegs=("p1",))

    assert work.told == order
    assert not work.on_bores
    assert not work.fills

"""The bag list: sizes, lengths, nuts, washers, bushes and spares at scale, worked out by hand."""

from __future__ import annotations

from pathlib import Path

import pytest

from planner.finding import Finding, Verdict, Work
from planner.job import read_job
from planner.supplies import built
from tests.conftest import MakeJob
from tests.shapes import cuboid

SCREW = (
    '[job]\nname = "x"\n[[part]]\nname = "a"\nmesh = "a.stl"\ncount = 2\n[[part]]\nname = "b"\nmesh = "b.stl"\n'
    '[[hardware]]\nname = "screw"\nkind = "machine-screw"\ndiameter_mm = 3.0\njoins = ["a", "b"]\nstack_mm = 10.0\n'
)


def _asked(work: Work, part: str = "a") -> Finding:
    """Return a finding that asks for work."""
    return Finding(
        rule="bore.loose",
        part=part,
        feature="screw in b1 (3.40 mm)",
        verdict=Verdict.GO_WITH_WORK,
        why="too wide",
        remedy="do it",
        work=work,
    )


def test_lengths_go_to_the_next_stock(heron: Path) -> None:
    """14 mm x 1.065 = 14.9 -> 15 mm post; with washer (ISO 7089: 0.5 mm) and nut (ISO 4032: 2.4 mm) 17.0 + 2.9 -> 20 mm."""
    lines = {line.name: line for line in built(read_job(heron), 1.065, ()).hardware}

    assert lines["pivot post"].length_mm == 15.0
    assert lines["knob screw"].length_mm == 20.0
    assert lines["anchor screw"].length_mm == 12.0


def test_what_is_printed_is_not_bought(heron: Path) -> None:
    """The lock pin is a part: it has no price, no spare and no length to buy."""
    pin = built(read_job(heron), 1.065, ()).line("printed lock pin")

    assert (pin.price, pin.spares_n, pin.length_mm, pin.printed) == (0.0, 0, None, "lock-pin")


def test_a_nut_at_a_pivot_locks(heron: Path) -> None:
    """Pulley axle, turning: 10.5 x 1.065 + 2 x 0.5 + 4.5 (ISO 7040, M3) + 0.5 (a pitch, ISO 261) = 17.2 -> 20 mm."""
    device = built(read_job(heron), 1.065, ())
    nut, washer = device.with_it("pulley axle")

    assert (nut.kind, nut.size, nut.count) == ("nut", "M3 locking", 2)
    assert (washer.kind, washer.count) == ("washer", 4)
    assert device.line("pulley axle").length_mm == 20.0


@pytest.mark.parametrize(("kind", "count", "spares_n"), [("plain", 4, 1), ("plain", 11, 2)])
def test_spares_lie_in_the_bag_and_in_the_price(make_job: MakeJob, kind: str, count: int, spares_n: int) -> None:
    """One for every ten that are begun; at 0.04 each, nuts cost the device and its spares."""
    job = make_job(SCREW + f'count = {count}\nnut = "{kind}"\n', a=cuboid(20, 20, 5), b=cuboid(20, 20, 5))
    nut = built(job, 1.0, ()).with_it("screw")[0]

    assert (nut.count, nut.spares_n) == (count, spares_n)
    assert nut.price == pytest.approx(0.04 * (count + spares_n))


def test_another_size_reaches_screw_nut_and_washer(make_job: MakeJob) -> None:
    """M4 for M3: 10 + 2 x 0.8 + 3.2 = 14.8 mm -> 16 mm, with nuts and washers of M4 (ISO 4032, ISO 7089)."""
    job = make_job(SCREW + 'nut = "plain"\n', a=cuboid(20, 20, 5), b=cuboid(20, 20, 5))
    taken = Work(kind="stock", hardware="screw", takes="M4 machine-screw", takes_mm=4.0)
    device = built(job, 1.0, [_asked(taken)])
    screw = device.line("screw")

    assert (screw.size, screw.instead_of, screw.length_mm) == ("M4", "M3", 16.0)
    assert [line.size for line in device.with_it("screw")] == ["M4", "M4"]
    assert device.job.hardware[0].diameter_mm == 4.0


def test_a_bush_is_bagged_for_every_copy(make_job: MakeJob) -> None:
    """One bore in a part that is printed twice takes two bushes, and stands in the list of work."""
    job = make_job(SCREW + 'nut = "plain"\n', a=cuboid(20, 20, 5), b=cuboid(20, 20, 5))
    work = Work(kind="bush", hardware="screw", outside_mm=5.0, bored_mm=3.1)
    device = built(job, 1.0, [_asked(work)])
    bush = next(line for line in device.hardware if line.kind == "bush")

    assert (bush.count, bush.size) == (2, "5.00 mm outside, bored 3.10 mm")
    assert [(one.part, one.count, one.what) for one in device.work] == [("a", 2, "do it")]

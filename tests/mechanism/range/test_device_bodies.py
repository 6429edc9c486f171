"""Bodies of a device: hardware keeps its size, with heads and nuts by the standards' tables."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from planner.assembly import Claim
from planner.job import Hardware, HardwareKind, Nut
from planner.mechanism import BoreStack, PlacedBore
from planner.mechanism.range.device_bodies import Body, device_bodies, end_round_mm
from planner.survey import Bore
from tests.conftest import MakeJob
from tests.mechanism.invented import DEVICE_ZERO as DEVICE

SCREW = Hardware(name="screw", kind="machine-screw", diameter_mm=3.0, joins=("base", "arm"), fit="turning")
BORE = Bore(
    id="b1", diameter_mm=3.2, drawn_diameter_mm=3.2, facets_n=32, depth_mm=5.0, axis=(0.0, 0.0, 1.0),
    centre_mm=(0.0, 0.0, 2.5), through=True, step_of=None, coverage_deg=360.0, edge_wall_mm=None,
)  # fmt: skip


def _stack(hardware: Hardware) -> BoreStack:
    """Return a pin through base and arm, 10 mm of both."""
    bores = (replace(BORE, centre_mm=(0.0, 0.0, -2.5)), BORE)
    pairs = zip(("base", "arm"), bores, strict=True)
    return BoreStack(
        bores=tuple(
            PlacedBore(copy=copy, bore=bore, claim=Claim(part=copy, bore=bore, hardware=hardware, fit="turning"))
            for copy, bore in pairs
        )
    )


@pytest.mark.parametrize(
    ("mm", "nut", "washer", "head", "high"),
    [(3.0, None, 7.0, 5.5, 3.0), (3.0, "plain", 7.0, 6.35, 3.0), (5.0, "locking", 10.0, 9.24, 6.8)],
)
def test_screw_ends_are_those_of_the_standards(
    make_job: MakeJob, mm: float, nut: Nut | None, washer: float, head: float, high: float
) -> None:
    """Washer by ISO 7089 (7 and 10 mm), and the larger of head (ISO 4762) and nut over corners (ISO 4032, 7040).

    Flats of 5.5 and 8 mm over corners: by cos 30°; a locking M5 is 6.8 mm high at most. From memory.
    """
    tables = make_job(DEVICE.job_text, **DEVICE.solids).tables
    ends = end_round_mm(replace(SCREW, diameter_mm=mm, nut=nut, fit="sliding"), tables)

    assert 2 * ends[0][0] == pytest.approx(washer)
    assert 2 * ends[1][0] == pytest.approx(head, abs=0.01)
    assert ends[1][1] - ends[0][1] == pytest.approx(high, abs=0.01)
    assert end_round_mm(replace(SCREW, kind="dowel-pin"), tables) == ()


@pytest.mark.parametrize(
    ("kind", "mm", "wide", "high"),
    [("wood-screw", 3.505, 7.09, 2.11), ("wood-screw", 3.0, 6.03, 1.79), ("binding-post", 5.0, 9.5, 1.7)],
)
def test_wood_screws_and_posts_have_heads(
    make_job: MakeJob, kind: HardwareKind, mm: float, wide: float, high: float
) -> None:
    """Heads of 0.279 x 0.083 inch for #6 (ASME B18.6.1, memory); 3 mm grows from #4, 0.225 x 0.067, by 3 / 2.8448."""
    tables = make_job(DEVICE.job_text, **DEVICE.solids).tables
    ((radius, tall),) = end_round_mm(replace(SCREW, kind=kind, diameter_mm=mm), tables)

    assert (2 * radius, tall) == pytest.approx((wide, high), abs=0.01)


WASHER = Hardware(name="shim", kind="washer", diameter_mm=3.0, joins=("base", "arm"), size_mm=24.0)


@pytest.mark.parametrize(
    ("kind", "ends"), [("machine-screw", "head or nut of screw"), ("dowel-pin", "washer on screw")]
)
def test_a_stated_washer_lies_at_both_ends_and_where_two_parts_stand_apart(
    make_job: MakeJob, kind: HardwareKind, ends: str
) -> None:
    """24 mm wide on a screw and on a pin; between base and arm, 1.4 mm apart, it may fill the room. By hand."""
    pin = replace(SCREW, kind=kind, fit="sliding")
    job = replace(make_job(DEVICE.job_text, **DEVICE.solids), hardware=(pin, WASHER))
    low, high = _stack(pin).bores
    apart = BoreStack(bores=(low, replace(high, bore=replace(high.bore, centre_mm=(0.0, 0.0, 3.9)))))
    bodies, _ = device_bodies(job, DEVICE.solids, replace(DEVICE.mechanism(), stacks=(apart,)), 1.0)
    rounds = [body.shape.bounding_box() for body in bodies if body.guessed]

    assert ends in {body.name for body in bodies}
    assert all(box[3] - box[0] == pytest.approx(24.0, abs=0.1) for box in rounds)
    assert any((box[2], box[5]) == pytest.approx((0.0, 1.4), abs=0.01) for box in rounds)


def test_a_washer_lies_on_what_joins_all_of_its_parts(make_job: MakeJob) -> None:
    """Of two screws of its size the one that joins base and arm has it; the other keeps its usual washer of 7 mm."""
    other = replace(SCREW, name="other", joins=("base", "lid"), fit="sliding")
    job = replace(make_job(DEVICE.job_text, **DEVICE.solids), hardware=(SCREW, other, WASHER))
    stack = replace(DEVICE.mechanism(), stacks=(_stack(other),))
    bodies, _ = device_bodies(job, DEVICE.solids, stack, 1.0)
    box = next(body for body in bodies if body.guessed).shape.bounding_box()

    assert box[3] - box[0] == pytest.approx(7.0, abs=0.1)


def test_a_blind_bore_holds_the_tip_and_no_head(make_job: MakeJob) -> None:
    """A screw through the base into a blind bore of the arm has its head below the base alone."""
    job = make_job(DEVICE.job_text, **DEVICE.solids)
    stack = _stack(replace(SCREW, kind="wood-screw", fit="pilot"))
    blind = replace(stack, bores=(stack.bores[0], replace(stack.bores[1], bore=replace(BORE, through=False))))
    bodies, _ = device_bodies(job, DEVICE.solids, replace(DEVICE.mechanism(), stacks=(blind,)), 1.0)
    box = next(body for body in bodies if body.name == "head or nut of screw").shape.bounding_box()

    assert (box[2], box[5]) == pytest.approx((-5.0 - 1.79, -5.0), abs=0.01)


@pytest.mark.parametrize("factor", [1.0, 2.0])
def test_hardware_keeps_its_size_and_parts_grow(make_job: MakeJob, factor: float) -> None:
    """In the drawn frame a screw at twice the size is half as thick; heads are told apart as a guess."""
    job = make_job(DEVICE.job_text, **DEVICE.solids)
    mechanism = replace(DEVICE.mechanism(), stacks=(_stack(SCREW),))
    bodies, untried = device_bodies(job, DEVICE.solids, mechanism, factor)
    by_name = {body.name: body for body in bodies}

    assert untried == ()
    assert set(by_name) == {"base", "arm", "screw", "head or nut of screw"}
    box = np.array(by_name["screw"].shape.bounding_box())
    assert box[3:] - box[:3] == pytest.approx((3.0 / factor, 3.0 / factor, 10.0), abs=0.05)
    assert by_name["head or nut of screw"].guessed
    assert not by_name["screw"].guessed


def test_a_mesh_with_faults_is_named(make_job: MakeJob) -> None:
    """What has no volume cannot be tried, and is said."""
    solids = {**DEVICE.solids, "arm": replace(DEVICE.solids["arm"], faults=("open",))}
    job = make_job(DEVICE.job_text, **DEVICE.solids)

    assert device_bodies(job, solids, DEVICE.mechanism(), 1.0)[1] == ("arm",)


def test_what_grows_is_made_once_for_all_sizes_and_what_keeps_its_size_once_for_each(make_job: MakeJob) -> None:
    """Parts come back as the same bodies at any size; a pin does at its own size alone, and says what it is made of."""
    mechanism, known = replace(DEVICE.mechanism(), stacks=(_stack(SCREW),)), dict[str | float, tuple[Body, ...]]()
    job = make_job(DEVICE.job_text, **DEVICE.solids)
    one, again, half = (device_bodies(job, DEVICE.solids, mechanism, s, known)[0] for s in (1.0, 1.0, 0.5))

    assert [a is b for a, b in zip(one, again, strict=True)] == [True] * len(one)
    assert [a is b for a, b in zip(one, half, strict=True)] == [not a.fixed for a in one]
    assert all((a.made == b.made) is not a.fixed for a, b in zip(one, half, strict=True))

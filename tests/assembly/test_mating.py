"""Mating: the graph of parts and joints, stacks from bores, and what nothing joins."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import networkx as nx
import pytest
from manifold3d import Manifold

from planner.assembly import claims_of, mating_findings, mating_graph, notes_that_stand
from planner.finding import Finding, Verdict
from planner.job import Job, read_job
from planner.mesh import read_solid
from planner.plan import prepare
from planner.rules import check
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import bored_plate, cuboid, cylinder, solid_of

TODAY = date(2026, 12, 1)
TEXT = (
    '[job]\nname = "x"\nmaterial = "petg"\n'
    '[[part]]\nname = "fork"\nmesh = "fork.stl"\nduty = "load"\n[[part]]\nname = "eye"\nmesh = "eye.stl"\ncount = 2\nduty = "load"\n'
    '[[part]]\nname = "lid"\nmesh = "lid.stl"\nduty = "cover"\n'
    '[[hardware]]\nname = "post"\nkind = "binding-post"\ndiameter_mm = 5.0\nbore_mm = 5.5\nfit = "turning"\njoins = ["fork", "eye"]\ncount = 2\n'
)


def _job(make_job: MakeJob, more: str = "") -> Job:
    """Return a fork of 8 mm with two bores, two eyes of 6 mm, and a lid."""
    fork = bored_plate(60, 20, 8, [(15, 10, 5.5, 48), (45, 10, 5.5, 48)])
    return make_job(TEXT + more, fork=fork, eye=bored_plate(20, 20, 6, [(10, 10, 5.5, 48)]), lid=cuboid(30, 20, 2))


def test_the_graph_has_a_node_for_each_part_and_joint(make_job: MakeJob) -> None:
    """Fork and eye hang together by the post, the lid alone (networkx: connected components)."""
    graph = mating_graph(_job(make_job))

    assert {frozenset(group) for group in nx.connected_components(graph)} == {
        frozenset({"fork", "eye", "hardware: post"}),
        frozenset({"lid"}),
    }


def test_an_unstated_stack_is_the_depth_of_the_bores(make_job: MakeJob) -> None:
    """Two bores of 8 and two eyes of 6, shared by two posts: 14 mm each, marked as a guess."""
    ready = prepare(_job(make_job), TODAY)

    assert ready.job.hardware[0].stack_mm == pytest.approx(14.0, abs=1e-6)
    assert any(guess.what == "stack of post" and guess.value == "14.0 mm" for guess in ready.bound.guesses)


def _stacks(job: Job) -> list[Finding]:
    """Return what is found about stacks."""
    claims = claims_of(job, {p.name: survey(read_solid(p.mesh, name=p.name, unit="mm")) for p in job.parts}).claims
    return [finding for finding in mating_findings(job, claims) if finding.rule == "mate.stack"]


def test_a_post_too_short_for_its_bores_is_held(make_job: MakeJob) -> None:
    """Stated as 10 where the bores are 14 deep: it ends inside, once a go; stated as 16, for a washer: nothing."""
    (short,) = _stacks(_job(make_job, "stack_mm = 10.0\n"))

    assert short.verdict is Verdict.HOLD
    assert short.limit == pytest.approx(14.0)
    assert short.question == "How thick is all that post goes through: 10 or 14.0 mm?"
    assert _stacks(_job(make_job, "stack_mm = 16.0\n")) == []


def test_bores_that_do_not_share_out_get_a_word(make_job: MakeJob) -> None:
    """With one post for four bores it is the count that may be wrong: no hold on that guess."""
    job = _job(make_job, "stack_mm = 10.0\n")
    one = replace(job, hardware=(replace(job.hardware[0], count=1),))

    assert [finding.verdict for finding in _stacks(one)] == [Verdict.GO]


@pytest.mark.parametrize(("z_mm", "stated", "held"), [(10.5, 9.0, True), (10.5, 16.5, False), (8.0, 13.5, False)])
@pytest.mark.parametrize("kind", ["machine-screw", "dowel-pin"])
def test_parts_in_place_tell_the_stack_from_face_to_face(
    make_job: MakeJob, z_mm: float, stated: float, held: bool, kind: str
) -> None:
    """Plates of 8 and 6 mm, 2.5 apart: 16.5 mm from face to face, whatever is stated; a pin may end before."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
        '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\n[[hardware]]\nname = "post"\ndiameter_mm = 5.0\n'
        f'bore_mm = 5.5\nfit = "sliding"\njoins = ["a", "b"]\nkind = "{kind}"\nstack_mm = {stated}\n'
    )
    above = bored_plate(30, 20, 6, [(15, 10, 5.5, 48)]).manifold
    assert above is not None
    job = make_job(text, a=bored_plate(30, 20, 8, [(15, 10, 5.5, 48)]), b=solid_of(above.translate((0, 0, z_mm))))
    held = held and kind == "machine-screw"

    assert any(finding.verdict is Verdict.HOLD for finding in _stacks(job)) is held


def test_what_nothing_joins_is_told_once(make_job: MakeJob) -> None:
    """One sentence names the groups; it never worsens the verdict."""
    found = [f for f in check(prepare(_job(make_job), TODAY).bound, 100.0).findings if f.rule == "mate.loose"]

    assert len(found) == 1
    assert found[0].verdict.passes


def test_a_joint_named_without_hardware_joins_too(make_job: MakeJob) -> None:
    """With the lid pressed onto the fork nothing is loose, and no fit is judged by it."""
    joint = '[[joint]]\nbetween = ["fork", "lid"]\nhow = "pressed"\n'
    with_it, without = (check(prepare(_job(make_job, more), TODAY).bound, 100.0) for more in (joint, ""))

    assert "mate.loose" not in {f.rule for f in with_it.findings}
    assert [f for f in without.findings if f.rule != "mate.loose"] == list(with_it.findings)


def test_the_joints_of_the_heron_are_whole(heron: Path) -> None:
    """All 17 parts hang together (networkx: connected)."""
    assert nx.is_connected(mating_graph(read_job(heron)))


def test_a_stack_is_not_told_of_hardware_that_an_answer_has_replaced(make_job: MakeJob) -> None:
    """A screw in the post's place: its stack is not the post's."""
    job = prepare(_job(make_job), TODAY).job
    screwed = replace(job, hardware=tuple(replace(one, name="screw") for one in job.hardware))

    assert "stack of post" in {note.what for note in notes_that_stand(job)}
    assert "stack of post" not in {note.what for note in notes_that_stand(screwed)}


def test_what_is_told_of_an_unstated_stack_is_never_held_against_it(make_job: MakeJob) -> None:
    """Plates of 8 and 6 mm, 2.5 apart in place: 16.5 mm is taken, not the 14 of the bores, and nothing is asked."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
        '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\n[[hardware]]\nname = "post"\ndiameter_mm = 5.0\n'
        'bore_mm = 5.5\nfit = "sliding"\njoins = ["a", "b"]\nkind = "machine-screw"\nnut = "plain"\n'
    )
    above = bored_plate(30, 20, 6, [(15, 10, 5.5, 48)]).manifold
    assert above is not None
    job = make_job(text, a=bored_plate(30, 20, 8, [(15, 10, 5.5, 48)]), b=solid_of(above.translate((0, 0, 10.5))))
    ready = prepare(job, TODAY)

    assert ready.job.hardware[0].stack_mm == pytest.approx(16.5, abs=1e-6)
    assert _stacks(ready.job) == []


def test_a_pin_across_a_fork_is_as_long_as_the_fork_is_wide(make_job: MakeJob) -> None:
    """Two tabs of 6 mm that stand 76 mm apart from middle to middle: the pin through both is 82 mm, not 12 and 6 more.

    One pin on one axis passes what is between the tabs; of two pins one passes two tabs and one a single tab, and their
    mean of 9 mm would fit neither.
    """
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
        '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\n[[hardware]]\nname = "axle"\ndiameter_mm = 5.0\n'
        'bore_mm = 5.5\nfit = "sliding"\njoins = ["a", "b"]\nkind = "dowel-pin"\n'
    )
    tab = bored_plate(30, 20, 6, [(15, 10, 5.5, 48)]).manifold
    assert tab is not None
    bridge = Manifold.cube((4, 20, 82)) + tab + tab.translate((0, 0, 76))
    job = make_job(text, a=solid_of(bridge), b=solid_of(tab.translate((0, 0, 7))))
    (one,) = prepare(job, TODAY).job.hardware
    (each,) = prepare(make_job(text + "count = 2\n", a=solid_of(bridge), b=solid_of(tab)), TODAY).job.hardware

    assert one.stack_mm == pytest.approx(82.0, abs=1e-3)
    assert each.stack_mm is None


@pytest.mark.parametrize(
    ("count", "deep_mm", "stack_mm"), [(3, 2.0, None), (2, 5.0, None), (2, 2.0, 10.0), (3, 5.0, None)]
)
def test_bores_that_do_not_share_out_among_the_pieces_settle_a_stack_only_where_all_are_alike(
    make_job: MakeJob, count: int, deep_mm: float, stack_mm: float | None
) -> None:
    """A lid with three bores, two of 2 mm, over a base of 8 mm with two: the third goes into something else."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
        '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\n[[hardware]]\nname = "screw"\ndiameter_mm = 3.0\n'
        f'bore_mm = 3.4\nfit = "sliding"\njoins = ["a", "b"]\nkind = "machine-screw"\nnut = "plain"\ncount = {count}\n'
    )
    base = bored_plate(60, 20, 8, [(10, 10, 3.4, 48), (50, 10, 3.4, 48)])
    lid = bored_plate(60, 20, 2, [(10, 10, 3.4, 48), (50, 10, 3.4, 48)]).manifold
    assert lid is not None
    thick = Manifold.cube((10, 10, deep_mm)).translate((25, 5, 0)) - cylinder(3.4, 20, 48).translate((30, 10, -5))
    lid = (lid - cylinder(3.4, 20, 48).translate((30, 10, -5))) + thick
    (one,) = prepare(make_job(text, a=base, b=solid_of(lid)), TODAY).job.hardware

    assert one.stack_mm == (None if stack_mm is None else pytest.approx(stack_mm, abs=1e-3))


def test_bolts_of_two_lengths_under_one_name_get_no_length(make_job: MakeJob) -> None:
    """One through a plate of 8 mm, one through a plate of 3, nothing on a common axis: a mean of 5.5 fits neither."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
        '[[part]]\nname = "b"\nmesh = "b.stl"\nduty = "load"\n[[hardware]]\nname = "bolt"\ndiameter_mm = 5.0\ncount = 2\n'
        'bore_mm = 5.5\nfit = "sliding"\njoins = ["a", "b"]\nkind = "machine-screw"\nnut = "plain"\n'
    )
    thick, thin = bored_plate(30, 20, 8, [(15, 10, 5.5, 48)]), bored_plate(40, 20, 3, [(25, 10, 5.5, 48)])
    (bolt,) = prepare(make_job(text, a=thick, b=thin), TODAY).job.hardware

    assert bolt.stack_mm is None

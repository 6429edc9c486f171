"""Two pieces of hardware of one bore size in one part: each bore is assigned once, or a person is asked."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import numpy as np
import pytest

from planner.assembly import claims_of
from planner.assembly.bore_axes import alike, axes_of
from planner.finding import Verdict
from planner.job import Job
from planner.mesh import Solid
from planner.plan import Prepared, prepare
from planner.rules import check
from planner.survey import survey
from tests.conftest import MakeJob
from tests.shapes import Manifold, bored_plate, cylinder, solid_of

TODAY = date(2026, 12, 1)
RECTANGLE = [(10.0, 10.0), (40.0, 10.0), (40.0, 30.0), (10.0, 30.0)]
ROW = [(60.0, 8.0), (75.0, 8.0), (95.0, 8.0), (60.0, 32.0), (75.0, 32.0), (95.0, 32.0)]
HEAD = '[job]\nname = "x"\nmaterial = "petg"\n'


def plate(at: Sequence[tuple[float, float]], deep: float, *, base: tuple[float, float] = (110, 40)) -> Solid:
    """Return a plate with bores of 3.4 mm."""
    return bored_plate(*base, deep, [(x, y, 3.4, 48) for x, y in at])


def part(name: str, count: int = 1) -> str:
    """Return a part of a job file."""
    return f'[[part]]\nname = "{name}"\nmesh = "{name}.stl"\nduty = "load"\ncount = {count}\n'


def screw(name: str, joins: Sequence[str], more: str = "", mm: float = 3.0) -> str:
    """Return a screw of a job file, in bores of 3.4 mm."""
    named = ", ".join(f'"{one}"' for one in joins)
    return (
        f'[[hardware]]\nname = "{name}"\nkind = "machine-screw"\ndiameter_mm = {mm}\nbore_mm = 3.4\nfit = "sliding"\n'
        f"joins = [{named}]\n{more}"
    )


def _taken(job: Job, solids: dict[str, Solid], name: str) -> dict[str, set[tuple[float, float]]]:
    """Return where in a part each piece of hardware goes."""
    claims = claims_of(job, {key: survey(solid) for key, solid in solids.items()}).claims
    found: dict[str, set[tuple[float, float]]] = {}
    for claim in claims:
        if claim.part == name and not claim.or_else:
            x, y, _ = claim.bore.centre_mm
            found.setdefault(claim.hardware.name, set()).add((round(x, 1), round(y, 1)))
    return found


def _named(solids: dict[str, Solid]) -> dict[str, Solid]:
    """Return solids that bear their own names, as a plan's do."""
    return {
        name: Solid(name=name, vertices_mm=s.vertices_mm, faces=s.faces, sha256=name + s.sha256)
        for name, s in solids.items()
    }


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 37.0])
def test_the_pattern_of_the_partner_tells_whose_a_bore_is(make_job: MakeJob, turn_deg: float) -> None:
    """A base of ten bores under a lid of four and a rail of six, each drawn about its own origin: 6 + 3 = 9, 6 + 5 = 11 mm.

    Each screw once claimed all ten: 20 lines, and stacks of 24 and 16 mm.
    """
    lid = plate([(x - 5, y - 5) for x, y in RECTANGLE], 3.0, base=(40, 30))
    rail = plate([(x - 52, y) for x, y in ROW], 5.0, base=(50, 40))
    base = plate(RECTANGLE + ROW, 6.0)
    angle = np.radians(turn_deg)
    turn = np.array([[np.cos(angle), -np.sin(angle), 0], [np.sin(angle), np.cos(angle), 0], [0, 0, 1]])
    moved = Solid(name="lid", vertices_mm=lid.vertices_mm @ turn.T + [0, 0, 40], faces=lid.faces, sha256=f"{turn_deg}")
    solids = _named({"base": base, "lid": moved, "rail": rail})
    text = (
        HEAD
        + part("base")
        + part("lid")
        + part("rail")
        + screw("lid screw", ["base", "lid"], "count = 4\n")
        + screw("rail screw", ["base", "rail"], "count = 6\n")
    )
    job = make_job(text, **solids)

    assert _taken(job, solids, "base") == {"lid screw": set(RECTANGLE), "rail screw": set(ROW)}
    ready = prepare(job, TODAY)
    assert [h.stack_mm for h in ready.job.hardware] == pytest.approx([9.0, 11.0], abs=1e-3)
    lines = [f for f in check(ready.bound, 100.0).findings if f.rule == "bore.tight" and f.part == "base"]
    assert len(lines) == 10


def test_parts_in_place_share_their_axes(make_job: MakeJob) -> None:
    """Two lids of two bores 20 apart on a base of four in a row of 20: only where they stand tells them apart."""
    base = plate([(10, 20), (30, 20), (50, 20), (70, 20)], 6.0)
    left = plate([(10, 20), (30, 20)], 3.0, base=(40, 40))
    right = plate([(50, 20), (70, 20)], 4.0, base=(80, 40))
    solids = _named({"base": base, "left": _up(left, 6.0), "right": _up(right, 9.5)})
    text = HEAD + part("base") + part("left") + part("right")
    text += screw("a", ["base", "left"], "count = 2\n") + screw("b", ["base", "right"], "count = 2\n")

    assert _taken(make_job(text, **solids), solids, "base") == {"a": {(10, 20), (30, 20)}, "b": {(50, 20), (70, 20)}}


def _up(solid: Solid, high: float) -> Solid:
    """Return a solid lifted."""
    return Solid(
        name=solid.name, vertices_mm=solid.vertices_mm + np.array([0, 0, high]), faces=solid.faces, sha256=f"up {high}"
    )


def test_bores_that_are_alike_are_shared_by_number(make_job: MakeJob) -> None:
    """Six equal bores, four long screws and two short ones: which takes which makes no difference, and it is told."""
    solids = _named({"base": plate(ROW, 6.0)})
    text = HEAD + part("base") + screw("long", ["base"], "count = 4\n") + screw("short", ["base"], "count = 2\n")
    job = make_job(text, **solids)
    found = claims_of(job, {"base": survey(solids["base"])})

    assert [len(v) for v in _taken(job, solids, "base").values()] == [4, 2]
    assert any("alike" in guess.why for guess in found.guesses)
    assert not found.missing


@pytest.mark.parametrize(("mm", "judged"), [(3.0, 6), (2.5, 0)])
def test_what_nothing_tells_is_asked(make_job: MakeJob, mm: float, judged: int) -> None:
    """Numbers that do not add up: one question, no stack, and the fit only where both need the same bore."""
    solids = _named({"base": plate(ROW, 6.0)})
    text = HEAD + part("base") + screw("long", ["base"], "count = 3\n") + screw("short", ["base"], "count = 2\n", mm)
    ready = prepare(make_job(text, **solids), TODAY)
    found = check(ready.bound, 100.0).findings
    (asked,) = [f for f in found if f.rule == "bore.shared"]

    assert asked.verdict is Verdict.HOLD
    assert "long" in asked.question
    assert "short" in asked.question
    assert sum(f.rule == "bore.tight" for f in found) == judged
    assert not any(f.rule == "bore.unclaimed" for f in found)
    assert [h.stack_mm for h in ready.job.hardware] == [None, None]


def test_a_nearer_stated_bore_takes_it(make_job: MakeJob) -> None:
    """Bores of 3.4 and 3.3 lie within 4 % of each other: each screw takes the bores that it states."""
    base = bored_plate(110, 40, 6, [(x, y, 3.4, 48) for x, y in RECTANGLE] + [(x, y, 3.3, 48) for x, y in ROW])
    solids = _named({"base": base})
    other = screw("b", ["base"]).replace("bore_mm = 3.4", "bore_mm = 3.3")

    assert _taken(make_job(HEAD + part("base") + screw("a", ["base"]) + other, **solids), solids, "base") == {
        "a": set(RECTANGLE),
        "b": set(ROW),
    }


def test_a_pilot_is_blind_where_nothing_else_tells(make_job: MakeJob) -> None:
    """Wood screws and machine screws stated at one bore size: the blind bores are the pilots."""
    cuts = [cylinder(3.4, 6, 48).translate((x, y, 4)) for x, y in ROW]
    body = Manifold.cube((110, 40, 8))
    for x, y in RECTANGLE:
        body -= cylinder(3.4, 10, 48).translate((x, y, -1))
    for cut in cuts:
        body -= cut
    solids = _named({"base": solid_of(body)})
    wood = '[[hardware]]\nname = "wood"\nkind = "wood-screw"\ndiameter_mm = 4.0\nbore_mm = 3.4\njoins = ["base"]\n'

    assert _taken(make_job(HEAD + part("base") + screw("a", ["base"]) + wood, **solids), solids, "base") == {
        "a": set(RECTANGLE),
        "wood": set(ROW),
    }


def test_the_heron_has_no_contest(heron_ready: Prepared) -> None:
    """Every bore of the Heron has one claim at most, and nothing is asked."""
    claims = claims_of(heron_ready.job, heron_ready.surveys)

    assert len({(c.part, c.bore.id) for c in claims.claims}) == len(claims.claims)
    assert not any(f.rule == "bore.shared" for f in claims.missing)


@pytest.mark.parametrize("seed", range(6))
def test_a_turned_or_mirrored_pattern_is_found_among_other_axes(seed: int) -> None:
    """Four axes at random, hidden among five others, turned and mirrored: exactly these, against distances by hand."""
    rng = np.random.default_rng(seed)
    grid = rng.permutation([(x, y) for x in range(10, 110, 14) for y in range(10, 90, 14)])[:9] + rng.uniform(
        -3, 3, (9, 2)
    )
    here = bored_plate(130, 110, 5, [(float(x), float(y), 3.4, 48) for x, y in grid])
    z = grid[:4] @ [1, 1j]
    w = (z.conj() if seed % 2 else z) * np.exp(1j * rng.uniform(0, 6))
    w += 5 - w.real.min() + 1j * (5 - w.imag.min())
    there = bored_plate(200, 200, 5, [(float(v.real), float(v.imag), 3.4, 48) for v in w])
    axes, pattern = axes_of(survey(here).bores), axes_of(survey(there).bores)
    found = alike(axes, pattern)
    places = [{tuple(np.round(axes[i].bores[0].centre_mm[:2], 1)) for i in match} for match in found]

    assert places == [{tuple(np.round(p, 1)) for p in grid[:4]}]

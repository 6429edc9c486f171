"""Bores over every pattern of triangles, drawn with known truth; real plates by their sections; and nothing else."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from planner.mesh import Solid, read_solid
from planner.rebore.recut import drawn_mm, plug, round_cut
from planner.survey import Bore
from planner.survey.bores.bores import bores_of
from planner.survey.bores.facets import facets_of
from planner.survey.openings.channels import channels_of
from tests.bench.every_case import cases, every_case
from tests.shapes import DATA, solid_of
from tests.survey.drawn.bore_kinds import KINDS, drawings, radial, slanted, staggered
from tests.survey.drawn.boreless import without
from tests.survey.drawn.curved_meshes import scanned_limb, torus, wavy_shell
from tests.survey.drawn.cut_bores import rounded, threaded
from tests.survey.drawn.drawn_bores import Drawing, Meant

SECTIONS = json.loads((DATA / "bores" / "sections.json").read_text(encoding="utf-8"))


def _found(bore: Bore, meant: Meant) -> bool:
    """Return whether a bore is the one that was drawn: both diameters within 0.5 %, place and depth within 0.1 mm."""
    axis, away = np.array(meant.axis), np.subtract(bore.centre_mm, meant.at_mm)
    return bool(
        abs(bore.drawn_diameter_mm - meant.drawn_mm) < 0.005 * meant.drawn_mm
        and abs(bore.diameter_mm - meant.inscribed_mm) < 0.005 * meant.inscribed_mm
        and abs(np.dot(bore.axis, axis)) > math.cos(math.radians(0.5))
        and abs(bore.depth_mm - meant.depth_mm) < 0.1
        and np.linalg.norm(away - (away @ axis) * axis) < 0.1
        and bore.through == meant.through
    )


def _judged(drawing: Drawing) -> tuple[bool, list[Bore]]:
    """Return whether all that was drawn is found where it belongs, and what is reported besides."""
    certain, possible = (list(bores) for bores in bores_of(drawing.solid))
    for meant in drawing.meant:
        among = certain if meant.turned_deg >= 345.0 else possible
        hit = next((bore for bore in among if _found(bore, meant)), None)
        if hit is None:
            return False, []
        among.remove(hit)
    left = certain + possible
    return True, [b for b in left if all(abs(b.drawn_diameter_mm - d) > 0.005 * d for d in drawing.also_mm)]


def test_bores_are_found_whatever_the_pattern_of_their_triangles() -> None:
    """Of 400 drawings (known by construction) 398 give all their bores, and none gives one more; here of every fourth of a kind."""
    every = 1 if every_case() else 4
    judged = [(drawing.kind, *_judged(drawing)) for drawing in drawings(every)]

    assert every * len(judged) == sum(KINDS.values()) == 400
    assert every * sum(not right for _, right, _ in judged) <= 2, [kind for kind, right, _ in judged if not right]
    assert not [(kind, extra) for kind, _, extra in judged if extra]


def test_nothing_is_invented_on_bodies_without_a_bore() -> None:
    """Slots, pockets, fillets, tori, hollows, dishes, tapers, ovals, bends, bosses, free forms: 13, and 52 with every case."""
    assert not [(name, found) for name, body in without(cases(1, 4)) if any(found := bores_of(solid_of(body)))]


@pytest.mark.parametrize("turn", range(4))
def test_the_inscribed_circle_does_not_hang_on_the_order_of_corners(turn: int) -> None:
    """A staggered 12-gon leaves d cos(pi/12) free (geometry), however its triangles' corners are numbered."""
    drawing = next(d for d in (staggered(np.random.default_rng(seed)) for seed in range(99)) if d.meant[0].through)
    drawn = drawing.solid
    bores, _ = bores_of(replace(drawn, faces=np.ascontiguousarray(np.roll(drawn.faces, turn, axis=1)[::-1])))

    assert [bore.diameter_mm for bore in bores] == pytest.approx([drawing.meant[0].inscribed_mm], rel=1e-4)


def test_a_drawn_thread_is_one_bore_with_its_step() -> None:
    """Its lands make one bore, and the step of its grooves is told."""
    bores, _ = bores_of(threaded(np.random.default_rng(5)).solid)

    assert len(bores) == 1
    assert bores[0].groove_pitch_mm is not None
    assert bores[0].groove_pitch_mm / bores[0].drawn_diameter_mm == pytest.approx(0.16, abs=0.04)  # 0.12 to 0.2 drawn


@pytest.mark.parametrize("name", sorted(SECTIONS))
def test_plates_of_a_published_linkage_give_the_bores_of_their_sections(name: str) -> None:
    """Every bore that sections show is found within 0.5 %, and no other (circles fitted to plane sections)."""
    bores, possible = bores_of(read_solid(DATA / "bores" / name))
    left = list(bores)
    for row in SECTIONS[name]:
        hit = [b for b in left if np.linalg.norm(np.subtract(b.centre_mm, row["at_mm"])) < 0.1]
        assert hit, row
        assert hit[0].drawn_diameter_mm == pytest.approx(row["diameter_mm"], rel=0.005)
        assert hit[0].depth_mm == pytest.approx(row["depth_mm"], abs=0.1)
        assert hit[0].through == row["through"]
        assert abs(hit[0].axis["xyz".index(row["axis"])]) > 0.9999
        left.remove(hit[0])

    assert not left
    assert not possible


def test_clips_are_possible_bores() -> None:
    """Four snap-in openings of 269 degrees (measured by others' STEP faces) are possible, and none is certain."""
    bores, possible = bores_of(read_solid(DATA / "bores" / "clip_plate.stl"))

    assert not bores
    assert [round(bore.drawn_diameter_mm, 2) for bore in possible] == [5.0] * 4
    assert [bore.coverage_deg for bore in possible] == pytest.approx([269.0] * 4, abs=3.0)


@pytest.mark.parametrize("kind", [staggered, slanted, radial, rounded], ids=lambda kind: str(kind.__name__))
@pytest.mark.parametrize("share", [0.8, 1.15])
def test_what_rebore_cuts_is_surveyed_again(kind: object, share: float) -> None:
    """Plugged and cut again, narrower or wider, a bore is certain and as wide as it was cut (d cos(pi/64), geometry)."""
    assert callable(kind)
    for seed in range(4):
        drawn: Solid = kind(np.random.default_rng([7, seed])).solid
        (bore,), _ = bores_of(drawn)
        body, target = drawn.manifold, share * bore.diameter_mm
        assert body is not None
        if share < 1.0:
            filler = plug(body, bore, 1.0)
            if filler is None:  # refused by rebore too: it says so
                continue
            body += filler
        bores, possible = bores_of(drawn.with_body(round_cut(body, bore, drawn_mm(target), 1.0), ""))

        assert not possible
        assert [b.diameter_mm for b in bores] == pytest.approx([target], rel=0.005)


@pytest.mark.parametrize("mesh", [torus, wavy_shell, scanned_limb], ids=lambda mesh: str(mesh.__name__))
def test_curved_meshes_of_many_triangles_have_no_bore(mesh: Callable[[int], Solid]) -> None:
    """Of 60,000 triangles; how the time for it grows, ``tests.bench`` tells."""
    solid = mesh(60_000)
    facets = facets_of(solid)

    assert bores_of(solid, facets) == ((), ())
    assert len(channels_of(solid, facets)) <= 1

"""The weakest place: where a beam is a beam it is the beam's, and infill softens the core."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from manifold3d import CrossSection

from planner.mesh import Solid
from planner.strength import Strengths
from planner.strength.beam.beam_pass import KNOTS, weakest
from planner.strength.beam.material_as_printed import BeamStuff
from planner.strength.elements import refined_elements
from planner.strength.elements.case_forces import presses_of
from planner.strength.elements.displacements import UnsolvedError
from planner.strength.elements.nodal_forces import Press
from planner.strength.elements.one_mesh import Stuff, on_mesh
from planner.strength.elements.refined_elements import ELEMENTS_VERSION, UNKNOWNS_MOST_N, solved
from planner.strength.elements.stiffness import Moduli
from planner.strength.elements.tetrahedra import EndedError, Tetrahedra, UnmeshedError, tetrahedra_of
from planner.strength.loads.load_cases import known_case
from planner.strength.loads.part_load import PartLoad, Support
from planner.survey import survey
from tests.shapes import cuboid, solid_of
from tests.strength.places import by_elements, twelve_parts
from tests.strength.small_parts import FOUND, PARTS, apart_mm

STUFF = Stuff(
    moduli=Moduli(along_mpa=1900.0, across_mpa=1600.0, poisson_ratio=0.38),
    strengths=Strengths(along_mpa=40.0, across_mpa=25.0, shear_mpa=15.0),
    normal=(0.0, 0.0, 1.0),
    side_mm=1.0,
    level_mm=1.0,
    infill_share=1.0,
)
BAR = cuboid(60.0, 8.0, 8.0)


def _waisted() -> Solid:
    """Return a bar of 50 by 12 by 8, hollowed on both sides by a parabola to 8: no notch, and weakest in the middle."""
    half = [(x, 4.0 + 2.0 * ((x - 25.0) / 25.0) ** 2) for x in np.linspace(0.0, 50.0, 21)]
    outline = [(x, 6.0 - y) for x, y in half] + [(x, 6.0 + y) for x, y in reversed(half)]
    return solid_of(CrossSection([outline]).extrude(8.0))


def _pulled(infill_share: float) -> tuple[Solid, Stuff, tuple[Press, ...], float]:
    """Return the bar under 100 N at 3 mm from its middle, and what the beam pass says of the same load case."""
    bar, printed = _waisted(), replace(STUFF, side_mm=1.35, level_mm=0.8, infill_share=infill_share)
    push = PartLoad(at_mm=(50.0, 9.0, 4.0), force_n=(100.0, 0.0, 0.0))
    case = known_case([push], [Support(at_mm=(0.0, 9.0, 4.0))], "pulled beside its middle")
    beam = weakest(bar, (case,), BeamStuff(**{name: getattr(printed, name) for name in BeamStuff.__slots__}))
    assert beam is not None
    return bar, printed, presses_of(case, survey(bar)), beam.share_percent[KNOTS.index(1.0)]


def test_where_a_beam_is_a_beam_elements_say_what_the_beam_pass_says() -> None:
    """The same load case on a solid bar: 15 % (contract), in its waist, on the side that is pulled more, and it stands."""
    bar, printed, loads, beam_percent = _pulled(1.0)
    one = solved(bar, printed, [loads], 0.45)

    assert one.share_percent == pytest.approx(beam_percent, rel=0.15)
    assert abs(one.weakest_mm[0] - 25.0) < 10.0
    assert one.weakest_mm[1] > 8.0
    assert one.stands
    assert np.nanmax(one.skin_share_percent) <= one.share_percent * 1.001
    assert np.isnan(one.skin_share_percent[one.skin_mm[:, 0] > 49.9]).any()  # the load's own patch is left out
    assert one.skin_shift_mm.shape == one.skin_mm.shape


def test_with_infill_elements_come_to_the_beam_pass_as_their_mesh_gets_finer() -> None:
    """A skin of 1.35 mm, a core of a twenty-fifth of its stiffness: nearer with finer edges, and within 15 % (contract)."""
    bar, printed, loads, beam_percent = _pulled(0.2)
    found = [next(on_mesh(tetrahedra_of(bar, edge_mm), printed, [loads], 0.45)) for edge_mm in (2.5, 1.2)]
    coarse, fine = (one.share_percent for one in found if one is not None)

    assert abs(fine - beam_percent) < abs(coarse - beam_percent)
    assert fine == pytest.approx(beam_percent, rel=0.15)


def _forces(*forces_n: float) -> list[tuple[Press, ...]]:
    """Return load cases that pull the bar at both ends."""
    ends = ((60.0, 1.0), (0.0, -1.0))
    return [
        tuple(Press(at_mm=(x, 4.0, 4.0), force_n=(sign * each, 0.0, 0.0), patch_mm=2.0) for x, sign in ends)
        for each in forces_n
    ]


@pytest.fixture
def _few_unknowns(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let a part have small meshes alone: what is asked here does not hang on their size."""
    monkeypatch.setenv("FITWRIGHT_CACHE", "off")
    monkeypatch.setattr(refined_elements, "FIRST_N", 300)
    monkeypatch.setattr(refined_elements, "UNKNOWNS_MOST_N", 12_000)


@pytest.mark.usefixtures("_few_unknowns")
def test_the_worst_of_several_cases_counts_and_those_far_under_it_end_with_the_first_mesh() -> None:
    """50, 100, 90 and 20 N: the second is worst, and with the third alone (90 %, over the 80 %) it is on every mesh."""
    one = solved(BAR, STUFF, _forces(50.0, 100.0, 90.0, 20.0), 0.45)
    (alone,) = (solved(BAR, STUFF, _forces(100.0), 0.45),)

    assert (one.case_n, one.cases_n) == (1, 2)
    assert one.share_percent == pytest.approx(alone.share_percent, rel=0.1)


@pytest.mark.usefixtures("_few_unknowns")
def test_a_case_that_presses_all_of_a_part_is_told_and_spoils_no_other() -> None:
    """Patches of 12 mm leave out 36 mm from each end of a bar of 60 mm; alone such a case is refused."""
    wide = tuple(replace(one, patch_mm=12.0) for one in _forces(100.0)[0])
    one = solved(BAR, STUFF, [wide, *_forces(50.0)], 0.45)

    assert (one.case_n, one.untold_n) == (1, 1)
    with pytest.raises(UnsolvedError, match="near to where its loads enter"):
        solved(BAR, STUFF, [wide], 0.45)


@pytest.mark.usefixtures("_few_unknowns")
def test_unknowns_are_counted_and_what_was_found_before_they_ran_out_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    """With room for one mesh alone: an answer that does not stand; with room for none: one sentence that says so."""
    cells_n: list[int] = []

    def counted(*asked: Any, **more: Any) -> Tetrahedra:
        """Return the first mesh, and refuse all others."""
        if cells_n:
            raise UnmeshedError("refused")
        found = tetrahedra_of(*asked, **more)
        cells_n.append(3 * len(found.nodes_mm))
        return found

    monkeypatch.setattr(refined_elements, "tetrahedra_of", counted)
    by_refusal = solved(BAR, STUFF, _forces(100.0), 0.45)
    cells_n.clear()
    monkeypatch.setattr(refined_elements, "UNKNOWNS_MOST_N", by_refusal.unknowns_n + 1)
    by_count = solved(BAR, STUFF, _forces(100.0), 0.45)
    cells_n.clear()
    monkeypatch.setattr(refined_elements, "UNKNOWNS_MOST_N", by_refusal.unknowns_n - 1)

    for one in (by_refusal, by_count):
        assert (one.meshes_n, one.stands, one.converged_percent) == (1, False, 100.0)
        assert one.unknowns_n < UNKNOWNS_MOST_N
    with pytest.raises(EndedError, match="unknowns that may be solved"):
        solved(BAR, STUFF, _forces(100.0), 0.45)


CHANGED_PERCENT = 5.0


def test_the_weakest_place_is_that_of_a_finer_mesh() -> None:
    """Of each small part within 2 mm, or within 2 mm of a place that is named as a tie; shares within 5 %.

    As ``tests.strength.small_parts`` found, each within a minute of processor time.
    """
    rows = tomllib.loads(FOUND.read_text(encoding="utf-8"))
    off_mm = {
        name: min(apart_mm(name, tuple(at), tuple(row["reference_mm"])) for at in (row["weakest_mm"], *row["ties_mm"]))
        for name, row in rows.items()
    }
    off = {name: abs(row["share_percent"] / row["reference_percent"] - 1.0) for name, row in rows.items()}

    assert set(rows) == set(PARTS)
    assert {row["elements_version"] for row in rows.values()} == {ELEMENTS_VERSION}, "run tests.strength.small_parts"
    assert {name for name, far in off_mm.items() if far > 2.0} == set()
    assert {name for name in rows if 100.0 * off[name] > CHANGED_PERCENT} == set()
    assert max(row["seconds"] for row in rows.values()) < 60.0


def test_flat_parts_are_weakest_where_another_fine_mesh_finds_them() -> None:
    """Within 2 mm and 15 % (contract) of an even mesh in plane stress that shares no code with the product; beams 2 %.

    As ``tests.strength.places.by_elements`` found. At the lug a pin presses an arc here and half of the wall there: 7 %.
    """
    rows = tomllib.loads(by_elements.FOUND.read_text(encoding="utf-8"))

    assert set(rows) == set(twelve_parts.PARTS) == set(twelve_parts.FINE)
    assert {row["elements_version"] for row in rows.values()} == {ELEMENTS_VERSION}, (
        "run tests.strength.places.by_elements"
    )
    for name, row in rows.items():
        at, percent = twelve_parts.FINE[name]
        x, y, _ = row["weakest_mm"]
        places = [(x, y), *((tie[0], tie[1]) for tie in row.get("ties_mm", []))]
        assert min(twelve_parts.apart_mm(name, one, at) for one in places) < 2.0, name
        rel = 0.02 if twelve_parts.PARTS[name].beam else 0.15
        assert row["share_percent"] == pytest.approx(percent, rel=rel), name

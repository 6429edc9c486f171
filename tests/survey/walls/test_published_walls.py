"""No published part is refused for a blemish or a thin edge: each refusal is defended by a section cut apart from it."""

from __future__ import annotations

import json
from typing import Any

import numpy as np
import pytest

from planner.finding import Verdict
from tests.survey.cut_sections import chord_mm, is_neck, section, thin_mm
from tests.survey.published_no_gos import FOLDER, LIMIT_MM, TO_MM, no_gos

TABLE = json.loads((FOLDER / "no_gos.json").read_text(encoding="utf-8"))
ROWS: list[dict[str, Any]] = TABLE["refused"]
ASKED: list[dict[str, Any]] = TABLE["asked"]
FILES = sorted({row["file"] for row in ROWS})
NEAR_MM, SAME_MM = 2.0, 0.015


def _unit(file: str) -> str:
    """Return the unit that a mesh was drawn in."""
    return "inch" if "inch" in file else "mm"


@pytest.mark.parametrize("row", [*ROWS, *ASKED], ids=lambda row: f"{row['file']} {row['at_mm']}")
def test_the_table_is_what_sections_show(row: dict[str, Any]) -> None:
    """Trimesh cuts and shapely measures: the chord is the table's, and it is a wall or a neck as the table says."""
    piece = section(FOLDER / row["file"], TO_MM[row["unit"]], tuple(row["at_mm"]), tuple(row["normal"]))

    assert chord_mm(piece) == pytest.approx(row["wall_mm"], abs=2e-3)
    assert thin_mm(piece, LIMIT_MM) > LIMIT_MM if row["verdict"] == "wall" else is_neck(piece, LIMIT_MM)


@pytest.mark.parametrize("file", FILES)
def test_every_refusal_is_in_the_table(file: str) -> None:
    """What is refused at drawn size under load is what the table defends, as thin as there, and nothing is missed."""
    left = [row for row in ROWS if row["file"] == file]
    for found in no_gos(file, _unit(file)):
        near = [
            row
            for row in left
            if row["rule"] == found.rule
            and abs(row["wall_mm"] - found.measured_mm) < SAME_MM
            # a web beside a bore is named at one of many heights and sides that are alike
            and (found.rule == "bore.edge" or np.linalg.norm(np.subtract(row["at_mm"], found.at_mm)) < NEAR_MM)
        ]
        assert near, found
        left.remove(near[0])

    assert not left


@pytest.mark.parametrize("row", ASKED, ids=lambda row: f"{row['file']} {row['at_mm']}")
def test_a_short_tongue_is_asked_about(row: dict[str, Any]) -> None:
    """One line thick and 3.2 mm long in a finger that its users print and use: a hold with a question, no refusal."""
    asked = no_gos(row["file"], row["unit"], verdict=Verdict.HOLD)

    assert any(np.linalg.norm(np.subtract(row["at_mm"], one.at_mm)) < NEAR_MM for one in asked)


@pytest.mark.parametrize("file", TABLE["clear"])
def test_nothing_else_is_refused(file: str) -> None:
    """Parts whose thin places are edges that run out, or that have none, are not refused."""
    assert not no_gos(file, _unit(file))


@pytest.mark.parametrize("row", TABLE["at_sizes"], ids=lambda row: f"{row['file']} {row['percent']} %")
def test_what_is_refused_at_other_sizes_is_in_the_table(row: dict[str, Any]) -> None:
    """At a size that was once asked about, just so many places are refused, by that rule, and each is so thin."""
    found = no_gos(row["file"], row["unit"], row["percent"])

    assert len(found) == row["places"]
    assert all(one.rule == row["rule"] and abs(one.measured_mm - row["wall_mm"]) < SAME_MM for one in found)


def test_a_tooth_at_60_percent_is_thin_over_its_whole_width() -> None:
    """Across three teeth that are refused, sections show 8 mm of width in which no disc of 1.35 / 0.6 mm fits."""
    for one in no_gos("gearwheel_keyed.stl", "mm", 60)[:3]:
        outward = np.array([one.at_mm[0], one.at_mm[1], 0.0]) / np.hypot(*one.at_mm[:2])
        piece = section(FOLDER / "gearwheel_keyed.stl", 1.0, one.at_mm, tuple(outward))

        assert chord_mm(piece) < one.measured_mm + SAME_MM < LIMIT_MM / 0.6
        assert thin_mm(piece, LIMIT_MM / 0.6) == pytest.approx(8.0, abs=0.01)


def test_a_refused_place_tells_how_far_it_reaches() -> None:
    """The groove's floor in the side plate: the extent told is at least half of what the section shows, 4.8 mm."""
    row = next(r for r in ROWS if r["at_mm"][0] == -113.35)
    piece = section(FOLDER / row["file"], 1.0, tuple(row["at_mm"]), tuple(row["normal"]))
    found = next(one for one in no_gos(row["file"], "mm") if np.linalg.norm(np.subtract(row["at_mm"], one.at_mm)) < 1)

    assert found.extent_mm is not None
    assert found.extent_mm > 0.5 * thin_mm(piece, LIMIT_MM)

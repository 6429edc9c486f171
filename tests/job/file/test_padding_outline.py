"""Outlines of padding: units by the SVG standard, curves, holes, and files that are none."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from planner.errors import JobError
from planner.job import area_mm2 as outline_area_mm2
from planner.job import read_outline

SVG = '<svg xmlns="http://www.w3.org/2000/svg" {size}>{body}</svg>'


def _file(folder: Path, body: str, size: str = 'width="100mm" height="50mm" viewBox="0 0 100 50"') -> Path:
    """Write an SVG file."""
    path = folder / "pad.svg"
    path.write_text(SVG.format(size=size, body=body), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("size", "unit_mm"),
    [
        ('width="100mm" height="50mm" viewBox="0 0 100 50"', 1.0),
        ('width="10cm" height="5cm" viewBox="0 0 50 25"', 2.0),
        ('width="2in" height="1in" viewBox="0 0 100 50"', 0.508),
        ("", 25.4 / 96),
    ],
)
def test_units_are_those_of_the_standard(tmp_path: Path, size: str, unit_mm: float) -> None:
    """A square of 20 units is 20 units wide in mm (CSS Values and Units 3: 96 px are an inch, 25.4 mm)."""
    rings = read_outline(_file(tmp_path, '<rect x="5" y="5" width="20" height="20"/>', size))

    assert outline_area_mm2(rings) == pytest.approx((20 * unit_mm) ** 2, rel=1e-5)
    assert max(x for x, _ in rings[0]) == pytest.approx(20 * unit_mm, rel=1e-5)
    assert min(x for x, _ in rings[0]) == 0.0


def test_a_circle_and_a_hole_have_their_closed_areas(tmp_path: Path) -> None:
    """A disc of radius 20 with a hole of radius 5, moved by a transform: pi (400 - 25), within 0.1 %."""
    body = '<g transform="translate(3,2) rotate(30)"><circle cx="40" cy="5" r="20"/><circle cx="40" cy="5" r="5"/></g>'
    rings = read_outline(_file(tmp_path, body))

    assert len(rings) == 2
    assert outline_area_mm2(rings) == pytest.approx(math.pi * 375.0, rel=1e-3)


def test_y_points_upward(tmp_path: Path) -> None:
    """What is at the foot of the drawing lies at y = 0."""
    (ring,) = read_outline(_file(tmp_path, '<path d="M0 0 H10 V30 L0 30 Z M0 0"/>'))
    wide_foot = read_outline(_file(tmp_path, '<path d="M40 0 L50 0 L90 40 L0 40 Z"/>'))[0]

    assert max(y for _, y in ring) == pytest.approx(30.0, rel=1e-5)
    assert sorted(x for x, y in wide_foot if y < 1.0) == pytest.approx([0.0, 90.0], abs=1e-3)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("nothing", "not SVG"),
        ("", "not SVG"),
        (SVG.format(size="", body=""), "no closed outline"),
        (SVG.format(size="", body='<path d="M0 0 L100 100 L100 0 L0 100 Z"/>'), "crosses itself"),
        ('<!DOCTYPE svg [<!ENTITY a "aa">]>' + SVG.format(size="", body="&a;"), "entities"),
        (SVG.format(size="", body='<path d="M0 0 L1e400 0 L0 9 Z"/>'), "not"),
    ],
)
def test_a_file_that_holds_no_outline_is_refused(tmp_path: Path, text: str, told: str) -> None:
    """Each gives one sentence with the file's name."""
    path = tmp_path / "pad.svg"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(JobError) as caught:
        read_outline(path)

    assert str(caught.value).startswith("pad.svg: ")
    assert told in str(caught.value)

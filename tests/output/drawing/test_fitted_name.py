"""A name in an outline: along its part, cut only where it still tells, never in an opening."""

from __future__ import annotations

import pytest
import shapely

from planner.output.drawing.fitted_name import LINE_HIGH, fitted_name, width_of


@pytest.mark.parametrize(("side", "turn"), [((60.0, 12.0), 0.0), ((12.0, 60.0), 90.0)])
def test_a_name_lies_along_its_part(side: tuple[float, float], turn: float) -> None:
    """Level in a wide box, turned in a narrow one; its own box lies in the outline."""
    outline = shapely.box(0, 0, *side)
    name = fitted_name("bracket", outline, least_mm=4.0, most_mm=8.0)
    assert name is not None
    half = (width_of(name.text) * name.size_mm / 2, LINE_HIGH * name.size_mm / 2)
    half = half if turn == 0.0 else half[::-1]

    assert (name.text, name.turn_deg, name.size_mm) == ("bracket", turn, 8.0)
    box = (name.x_mm - half[0], name.y_mm - half[1], name.x_mm + half[0], name.y_mm + half[1])
    assert outline.contains(shapely.box(*box))


def test_a_name_is_cut_only_where_it_still_tells() -> None:
    """Cut with an ellipsis where no other name starts the same; otherwise, and in a speck, there is none."""
    outline = shapely.box(0, 0, 24, 9)
    cut = fitted_name("pulleywheel", outline, least_mm=4.0, most_mm=8.0)
    assert cut is not None
    assert "pulleywheel".startswith(cut.text.removesuffix("…"))
    assert cut.text.endswith("…")
    assert (
        fitted_name("bracket-left", shapely.box(0, 0, 20, 9), least_mm=4.0, most_mm=8.0, others=["bracket-right"])
        is None
    )
    assert fitted_name("jaw", shapely.box(0, 0, 3, 3), least_mm=4.0, most_mm=8.0) is None


def test_a_name_keeps_out_of_openings() -> None:
    """In a ring the name lies on the ring, not in its hole."""
    ring = shapely.Point(0, 0).buffer(30).difference(shapely.Point(0, 0).buffer(16))
    name = fitted_name("cap", ring, least_mm=4.0, most_mm=6.0)
    assert name is not None
    assert ring.contains(shapely.Point(name.x_mm, name.y_mm))

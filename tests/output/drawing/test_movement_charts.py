"""Pictures of movement say in words what they draw, and draw inside their frame."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree as ET

from planner.mechanism import CordMove, JointMove
from planner.output.drawing.movement_charts import BAR_WIDE, HIGH, WIDE, pull_curve, range_bar, travel_bar


def _svg(picture: str) -> ET.Element:
    return ET.fromstring(picture)  # noqa: S314  our own picture


def _joint(low: float | None, high: float | None) -> JointMove:
    return JointMove(
        name='deck to "jaw"',
        parts=("deck", "jaw"),
        kind="turns",
        axis=(0.0, 0.0, 1.0),
        at_mm=(0.0, 0.0, 0.0),
        free_deg=(low, high),
        stops=(),
        needs_deg=(-10.0, 30.0),
    )


def test_the_bar_is_the_free_range_to_scale() -> None:
    """Free from -20 to 20 of a span of 50: the bar takes 40 of 50 parts of the width inside."""
    picture = _svg(range_bar(_joint(-20.0, 20.0)))
    bar = picture.find("rect")
    assert bar is not None
    assert float(bar.attrib["width"]) == round(40.0 / 50.0 * (BAR_WIDE - 8.0), 1)
    assert 'deck to "jaw"' in picture.attrib["aria-label"]


def test_without_a_stop_the_bar_goes_half_a_turn_to_both_sides() -> None:
    """It is drawn, inside its frame."""
    bar = _svg(range_bar(_joint(None, None))).find("rect")
    assert bar is not None
    assert float(bar.attrib["x"]) + float(bar.attrib["width"]) <= BAR_WIDE


def test_the_pull_is_a_line_in_its_band() -> None:
    """Three angles give three points; the greatest pull touches the top of the frame."""
    points = ((0.0, 10.0, 12.0, 15.0), (10.0, 12.0, 15.0, 20.0), (20.0, 15.0, 20.0, 30.0))
    picture = _svg(pull_curve(CordMove(name="pull", part="deck", joint="deck to jaw", curve_n=points)))
    line, band = picture.find("polyline"), picture.find("polygon")
    assert line is not None
    assert band is not None
    assert len(line.attrib["points"].split()) == 3
    places = [tuple(map(float, p.split(","))) for p in band.attrib["points"].split()]
    assert all(0.0 <= x <= WIDE and 0.0 <= y <= HIGH for x, y in places)
    assert min(y for _, y in places) == 16.0
    assert re.search("30 N", ET.tostring(picture, encoding="unicode"))


def test_each_cord_of_a_shared_pull_has_its_line() -> None:
    """Two fingers of 10 and 20 N under a hand's 40 N: a line each, with its name and its most, below the hand's."""
    hand = ((0.0, 30.0, 40.0, 50.0), (10.0, 30.0, 40.0, 50.0))
    each = (("jaw", ((0.0, 8.0), (10.0, 10.0))), ("jaw#2", ((0.0, 20.0), (10.0, 18.0))))
    picture = _svg(pull_curve(CordMove(name="pull", part="deck", joint="x", curve_n=hand, each_n=each)))

    lines = [line for line in picture.findall("polyline") if "stroke-dasharray" in line.attrib]
    heights = [[float(p.split(",")[1]) for p in line.attrib["points"].split()] for line in lines]
    assert heights[0][1] > heights[1][1] > 16.0
    said = [text.text for text in picture.findall("text")]
    assert {"jaw: 10 N", "jaw#2: 20 N"} <= set(said)
    assert "each cord of 2" in picture.attrib["aria-label"]


def test_where_several_cords_are_drawn_at_once_the_curve_says_whose_pull_it_is() -> None:
    """54 N of one cord stand beside 152 N at the hand: the picture is of that cord alone."""
    points = ((0.0, 40.0, 43.0, 45.0), (40.0, 50.0, 54.0, 56.0))
    one = CordMove(name="c0", part="deck", joint="x", curve_n=points)
    told = [[text.text for text in _svg(pull_curve(each)).findall("text")] for each in (one, _at_once(one))]

    assert "angle of x" in told[0]
    assert "angle of x; the pull on c0 alone" in told[1]


def _at_once(one: CordMove) -> CordMove:
    return replace(one, together="the wrist draws c0 and c1 at once")


def test_a_pull_that_is_not_known_draws_nothing() -> None:
    """No points, no picture."""
    assert pull_curve(CordMove(name="pull", part="deck", joint="x")) == ""


def test_travel_is_what_the_body_gives_over_what_closing_needs() -> None:
    """14 mm needed of 19 mm given: the bar takes all of the width, the bracket 14 / 19 of it; unknown is said."""
    cord = CordMove(name="pull", part="deck", joint="x", travel_mm=14.0, has_mm=19.0)
    picture = _svg(travel_bar(cord))
    bar, bracket = picture.find("rect"), picture.find("path")
    assert bar is not None
    assert bracket is not None
    end = float(bracket.attrib["d"].split("H")[1].split("V")[0])

    assert float(bar.attrib["width"]) == round(BAR_WIDE - 8.0, 1)
    assert end == round(4.0 + 14.0 / 19.0 * (BAR_WIDE - 8.0), 1)
    assert "is open" in travel_bar(CordMove(name="pull", part="deck", joint="x", travel_mm=14.0))
    assert travel_bar(CordMove(name="pull", part="deck", joint="x")) == ""

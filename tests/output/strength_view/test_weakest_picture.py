"""The still picture of a loaded part: numbers where its places are, said in words too."""

from __future__ import annotations

from xml.etree import ElementTree as ET

from planner.output.strength_view.loaded_part import loaded_parts
from planner.output.strength_view.weakest_picture import HIGH_PX, WIDE_PX, weakest_picture
from planner.plan import Plan


def test_places_are_numbered_and_the_section_outlined(plan: Plan) -> None:
    """One number a place, inside the frame; S at the outline; the label tells every share without a colour."""
    one = loaded_parts(plan)[0]
    text = weakest_picture(one)
    picture = ET.fromstring(text)  # noqa: S314  our own picture
    spots = picture.findall("circle")

    assert [mark.text for mark in picture.findall("text")] == [*(str(n + 1) for n in range(len(one.places))), "S"]
    assert len(spots) == len(one.places)
    assert all(0 <= float(s.attrib["cx"]) <= WIDE_PX and 0 <= float(s.attrib["cy"]) <= HIGH_PX for s in spots)
    assert f"place 1 at {one.places[0][0]:.0f} %" in picture.attrib["aria-label"]
    assert len(text) < 20_000

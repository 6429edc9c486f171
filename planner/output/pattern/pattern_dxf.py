"""A pattern as DXF in mm, for cutters: closed polylines on layers by what they are."""

from __future__ import annotations

import io

from planner.output.pattern.pattern_words import dart_ticks
from planner.pattern import Flat

LAYERS = ("OUTLINE", "CUT_OUT", "MARKS", "DARTS")


def pattern_dxf(flat: Flat) -> str:
    """Return a pattern as the text of a DXF file (AC1024); the same pattern always gives the same text."""
    import ezdxf  # noqa: PLC0415  a third of a second to load, for those who need it

    options = ezdxf.options  # type: ignore[attr-defined]  # not in its list of names
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no date and no chance in it
    try:
        drawing = ezdxf.new("R2010", units=ezdxf.units.MM)  # type: ignore[attr-defined]  # not in its list of names
        for name in LAYERS:
            drawing.layers.add(name)
        space = drawing.modelspace()
        for n, ring in enumerate(flat.rings):
            space.add_lwpolyline(ring, close=True, dxfattribs={"layer": LAYERS[min(n, 1)]})
        for point in flat.marks:
            space.add_point((*point, 0.0), dxfattribs={"layer": LAYERS[2]})
        for _, one, other in dart_ticks(flat):
            space.add_line((*one, 0.0), (*other, 0.0), dxfattribs={"layer": LAYERS[3]})
        text = io.StringIO()
        drawing.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return text.getvalue()

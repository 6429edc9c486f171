"""Of bodies that stand before each other, only what nothing hides is drawn."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.output.line_drawing.scene import Body, Frame2, Scene
from planner.output.line_drawing.view_grid import looking
from tests.shapes import cuboid


def _scene() -> Scene:
    """Return a plate of 40 by 40 mm, and above it a block of 20 by 20 mm that hides its middle."""
    plate, block = cuboid(40, 40, 2), cuboid(20, 20, 5)
    return Scene(
        {
            "plate": Body(solid=plate, turn=np.eye(3), shift_mm=np.zeros(3)),
            "block": Body(solid=block, turn=np.eye(3), shift_mm=np.array([10.0, 10.0, 20.0])),
        },
        looking((0, 0, -1)),
        400,
    )


def _frame(scene: Scene) -> Frame2:
    low, high = scene.box_of(list(scene.bodies))
    return Frame2(
        low_mm=(float(low[0]) - 2, float(low[1]) - 2), high_mm=(float(high[0]) + 2, float(high[1]) + 2), ratio=1
    )


def _long(shape: object) -> float:
    rings = getattr(shape, "rings", ())
    return float(sum(shapely.LineString(ring).length for ring in rings))


def test_from_above_both_show_their_outlines() -> None:
    """A drawing of 1 : 1 has lines as long as both outlines, each once for its upper and once for its lower edge."""
    scene = _scene()
    near = scene.nearest(list(scene.bodies))
    assert _long(scene.lines(["plate"], near, _frame(scene), 0.05)) == pytest.approx(320, rel=0.02)
    assert _long(scene.lines(["block"], near, _frame(scene), 0.05)) == pytest.approx(160, rel=0.02)
    assert scene.share_seen(["block"], near) == 1.0
    assert scene.share_seen(["plate"], near) == pytest.approx(0.75, abs=0.02)


def test_from_below_the_block_is_hidden() -> None:
    """The plate hides all of it: no line is seen, and all of its outline is among the hidden ones."""
    above = _scene()
    scene = Scene(above.bodies, looking((0, 0, 1)), 400)
    near = scene.nearest(list(scene.bodies))
    assert scene.lines(["block"], near, _frame(scene), 0.05) is None
    assert _long(scene.hidden(["block"], near, _frame(scene), 0.05)) == pytest.approx(160, rel=0.02)
    assert scene.covered(["block"], near, _frame(scene)) == ()
    assert scene.middle_of("block", near) is None


def test_what_is_seen_of_a_body_is_filled() -> None:
    """The plate's filling is its face less the block's."""
    scene = _scene()
    rings = scene.covered(["plate"], scene.nearest(list(scene.bodies)), _frame(scene))
    areas = sorted(shapely.Polygon(ring).area for ring in rings)
    assert areas == pytest.approx([400, 1600], rel=0.03)


def test_a_line_is_split_where_a_body_hides_it() -> None:
    """A cord that passes below the block is hidden for the block's 20 mm."""
    scene = _scene()
    middle = scene.bodies["block"].points_mm.mean(axis=0)
    line = np.array([[middle[0] - 30, middle[1], 12.0], [middle[0] + 30, middle[1], 12.0]])
    seen, hidden = scene.split(line, scene.nearest(list(scene.bodies)))
    long = [float(np.hypot(*(part[:, 2:] - part[:, :2]).T).sum()) * scene.grid.step_mm for part in (seen, hidden)]
    assert long == pytest.approx([40, 20], abs=0.6)

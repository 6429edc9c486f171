"""A hinge about the origin and a slide along x, as frames over one number."""

from __future__ import annotations

from planner.mechanism import STILL, Frame


def hinge(deg: float) -> dict[str, Frame]:
    """Return where a part that stands, one that turns about z and one that slides along x are."""
    turned = STILL.turned_about((0.0, 0.0, 1.0), (0.0, 0.0, 0.0), deg)
    return {"base": STILL, "jaw": turned, "slide": STILL.slid_along((1.0, 0.0, 0.0), deg)}

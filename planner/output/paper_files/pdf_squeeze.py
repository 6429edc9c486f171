"""A card that is a little too long for its page, laid out on a larger page and drawn smaller."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

from reportlab.platypus import CondPageBreak, Flowable, KeepInFrame

SQUEEZES = (1.03, 1.06, 1.09, 1.12)
"""How much larger the page may be: type of 9.5 points stays above 8.4."""
ALMOST = 3.0
"""Points: what fills a page to less than this is taken for too long, since the library rounds."""


class Squeezed(Flowable):  # type: ignore[misc]  # the library ships no types
    """Flowables laid out for a page ``times`` as large in both directions, drawn smaller by as much."""

    def __init__(self, inside: list[Flowable], wide_pt: float, high_pt: float, times: float) -> None:
        super().__init__()
        self.times, self.high = times, high_pt
        self.inside = KeepInFrame(wide_pt * times, high_pt * times, inside, mode="error")

    def wrap(self, wide_pt: float, high_pt: float) -> tuple[float, float]:  # noqa: ARG002  the library's own signature
        """Return the room it takes: all there is, so that what it holds begins at the top."""
        return wide_pt, self.high

    def draw(self) -> None:
        """Draw it, top to top."""
        self.canv.saveState()
        self.canv.scale(1.0 / self.times, 1.0 / self.times)
        _, tall = self.inside.wrapOn(self.canv, self.inside.maxWidth, self.inside.maxHeight)
        self.inside.drawOn(self.canv, 0, self.high * self.times - tall)
        self.canv.restoreState()


def squeezed(laid_out: Callable[[float], list[Flowable]], wide_pt: float, high_pt: float) -> list[Flowable]:
    """Return what ``laid_out`` gives for a width, squeezed into one page where it is a little longer than one."""
    plain = laid_out(wide_pt)
    if not high_pt - ALMOST < tallness(plain, wide_pt, high_pt) <= SQUEEZES[-1] ** 2 * high_pt:
        return plain
    for times in SQUEEZES:
        found = [one for one in laid_out(wide_pt * times) if not isinstance(one, CondPageBreak)]
        if tallness(found, wide_pt * times, high_pt * times) <= high_pt * times - ALMOST:
            return [Squeezed(found, wide_pt, high_pt - 1.0, times)]
    return plain


def tallness(flowables: list[Flowable], wide_pt: float, high_pt: float) -> float:
    """Return the height of flowables below each other in points; between two stands the larger of their spaces.

    What stands over the first and below the last takes no room on a page of its own.
    """
    solid = [one for one in flowables if not isinstance(one, CondPageBreak)]
    heights = sum(float(one.wrap(wide_pt, high_pt)[1]) for one in solid)
    return heights + sum(float(max(a.getSpaceAfter(), b.getSpaceBefore())) for a, b in pairwise(solid))

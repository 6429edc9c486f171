"""What a printed part or plate takes: seconds and grams, with a range and a breakdown."""

from __future__ import annotations

from dataclasses import dataclass

LINE_KINDS = (
    "outer contour",
    "inner contour",
    "solid fill",
    "infill",
    "narrow line",
    "bridge",
    "support",
    "brim",
    "travel",
)
"""Kinds of line in a breakdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """An expected value with its range."""

    value: float
    low: float
    high: float

    def __add__(self, other: Amount) -> Amount:
        return Amount(value=self.value + other.value, low=self.low + other.low, high=self.high + other.high)

    def times(self, factor: float) -> Amount:
        """Return the amount multiplied by a factor."""
        return Amount(value=self.value * factor, low=self.low * factor, high=self.high * factor)


ZERO = Amount(value=0.0, low=0.0, high=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartEstimate:
    """One copy of one part, in its pose, at size.

    Parameters
    ----------
    part
        Name.
    layers_n
        Number of layers.
    height_mm
        Of the posed part.
    duration_s
        Motion and waiting of this copy alone, without heat-up; expected.
    deposited_mm3
        Plastic laid, support and brim included.
    support_mm3
        Plastic laid as support.
    layer_s
        Motion time of every layer (without waiting): a plate waits for the least layer time only once.
    kinds_s, kinds_mm3
        Seconds and deposited volume by kind of line (``LINE_KINDS``); waiting is a plate's, not a part's.
    peak_flow_mm3_s
        Largest volumetric flow reached.
    kinds_mm
        Length of path by kind of line.
    contact_mm2
        Area of the first layer.
    needs_support
        True where the pose has overhangs that do not print by themselves.
    bridge_span_mm
        Longest bridge over air; 0 where there is none.
    supported_mm2
        Area of the faces that lie on support: what has to be freed and smoothed.
    support_inside_mm3
        Space filled with support inside each opening that was asked about, by its name; only what is not nothing.
    sections_mm3, sections_slack_mm3
        Volume by the sections, as a cross-check of the mesh's own, and by how much they may differ: half a layer
        times all that the area changes from layer to layer (midpoint rule, total variation).
    approximate
        Why the numbers are rougher than usual (an unsound mesh); empty if they are not.
    """

    part: str
    layers_n: int
    height_mm: float
    duration_s: float
    deposited_mm3: float
    support_mm3: float
    layer_s: tuple[float, ...]
    kinds_s: dict[str, float]
    kinds_mm3: dict[str, float]
    kinds_mm: dict[str, float]
    peak_flow_mm3_s: float
    contact_mm2: float
    needs_support: bool
    bridge_span_mm: float
    supported_mm2: float
    support_inside_mm3: dict[str, float]
    sections_mm3: float
    sections_slack_mm3: float
    approximate: str = ""

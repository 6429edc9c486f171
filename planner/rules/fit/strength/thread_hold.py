"""How much a thread cut in plastic, or an insert, holds along its axis: pure geometry, and its length in matter.

The plastic between the threads is sheared off at their outside: F = S pi D L TSF, with the thread shape factor
TSF = 0.5 + 0.577 x thread depth / pitch (Chapman et al. 1996, doi 10.1115/1.2796022, who found 1.05 times as much in
foams, R2 0.947; the factor's numbers from memory). An insert is taken to hold by half of its outside: common practice,
no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

PLAIN_TSF, TSF_SLOPE = 0.5, 0.577
"""The factor of a thread of no depth, and what it gains for each depth over pitch: tan 30 degrees."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadHold:
    """What holds in one bore. Lengths of the hardware as bought, those of the part as drawn.

    Parameters
    ----------
    outside_mm
        Of the thread, or of an insert; less where only contours carry, and these end before it.
    root_mm
        Of the thread; of an insert its outside, so that its threads have no depth.
    pitch_mm
        Of the thread; None where no table lists it: the factor then counts as that of a thread of no depth.
    bore_mm, depth_mm
        Of the bore in the part, as drawn.
    lengths_mm
        The lengths that the screw is sold in, shortest first; empty for an insert.
    stack_mm
        What the screw goes through, the bore included.
    beside_mm
        Washers under its head.
    point_mm
        The part of its end that does not hold.
    insert_mm
        The length of an insert; None for a screw.
    """

    outside_mm: float
    root_mm: float
    pitch_mm: float | None
    bore_mm: float
    depth_mm: float
    lengths_mm: tuple[float, ...]
    stack_mm: float
    beside_mm: float
    point_mm: float
    insert_mm: float | None = None

    def engaged_mm(self, s: float) -> float:
        """Return the length in matter at a scale; 0 where no length is sold that reaches so far.

        A screw that cuts its thread must not come out behind: the longest is bought that its stack takes.
        """
        if self.insert_mm is not None:
            return min(self.insert_mm, self.depth_mm * s)
        most_mm = self.stack_mm * s + self.beside_mm
        bought_mm = max((one for one in self.lengths_mm if one <= most_mm + 1e-9), default=0.0)
        return max(bought_mm - self.beside_mm - self.before_mm * s - self.point_mm, 0.0)

    @property
    def before_mm(self) -> float:
        """What the screw passes before its pilot, as drawn; nothing where its stack ends within that."""
        return max(self.stack_mm - self.depth_mm, 0.0)

    def shape(self, s: float) -> float:
        """Return the thread shape factor at a scale: the bore leaves less of the thread the wider it is."""
        if self.pitch_mm is None:
            return PLAIN_TSF
        deep_mm = max((self.outside_mm - max(self.root_mm, self.bore_mm * s)) / 2.0, 0.0)
        return PLAIN_TSF + TSF_SLOPE * deep_mm / self.pitch_mm

    def area_mm2(self, s: float) -> float:
        """Return the sheared area at a scale, so that S times it is the force; 0 where the bore clears the thread.

        >>> hold = ThreadHold(outside_mm=4.0, root_mm=3.0, pitch_mm=1.0, bore_mm=3.0, depth_mm=10.0, lengths_mm=(10.0,),
        ...     stack_mm=10.0, beside_mm=0.0, point_mm=0.0)
        >>> round(hold.area_mm2(1.0), 2)  # pi x 4 x 10 x (0.5 + 0.577 x 0.5)
        99.09
        """
        if self.insert_mm is None and self.bore_mm * s >= self.outside_mm:
            return 0.0
        return math.pi * self.outside_mm * self.engaged_mm(s) * self.shape(s)

    def turns(self, least_mm2: float) -> tuple[float, ...]:
        """Return the scales at which the area may pass a least one.

        Where another length is bought, where the bore meets the root or the outside, and the roots of the area between
        those: there the length and the factor are straight lines over scale, so that their product is a parabola.
        """
        if self.insert_mm is not None:
            knots = {self.insert_mm / self.depth_mm}
        else:
            knots = {(one - self.beside_mm) / self.stack_mm for one in self.lengths_mm}
            knots |= {self.root_mm / self.bore_mm, self.outside_mm / self.bore_mm}
            for one in self.lengths_mm if self.before_mm > 0.0 else ():
                knots.add((one - self.beside_mm - self.point_mm) / self.before_mm)
        ends = sorted(one for one in knots if one > 0.0)
        found = list(ends)
        for low, high in zip([0.0, *ends], [*ends, 2.0 * (ends[-1] if ends else 1.0)], strict=True):
            at = [low + (high - low) * share for share in (0.25, 0.5, 0.75)]
            curve = np.polyfit(at, [self.area_mm2(one) - least_mm2 for one in at], 2)
            if np.abs(curve).max() > 0.0:
                found += [float(x.real) for x in np.roots(curve) if abs(x.imag) < 1e-9 and low < x.real < high]
        return tuple(sorted(set(found)))

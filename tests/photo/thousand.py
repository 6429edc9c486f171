"""A thousand rendered photos: how often the truth lies inside the range, and how wide that is. Takes minutes.

Run by ``python -m tests.photo.thousand [N]``. Each photo is drawn by OpenCV's camera model, the card is found in it, and
a cylinder of 40 to 100 mm and a length of the same size beside the card are measured, from 0.9 to 1.15 m, tilted up to
25 degrees, through a bent lens, up to 10 mm off the stated height, up to 5 degrees off square, on a sheet printed 0.2 %
(standard deviation) too large or small, by marks half a pixel off (the same). Half of the files tell their lens, 5 % off.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass

import numpy as np

from planner.photo import FoundCard, Length, find_card, fitted_camera, marks, measured
from planner.photo.fitted_camera import FILM_MM, FOCAL_KNOWN
from planner.photo.measured import PRINT_SHARE, SKEW_DEG
from tests.photo.rendered import SIZE_PX, Shot, cylinder_edges_px, photo, shot

PHONE_PX = (4000, 3000)
"""12 million pixels, what phones take; from memory."""
SIZES_PX = {"12 million pixels, as a phone takes": PHONE_PX, "2 million pixels, as a sent picture has": SIZE_PX}
CLICK_PX = 0.5
"""How far off a mark is each way, one standard deviation: the range counts on twice of it for 95 of 100."""
NEAREST = 0.95
"""The share of what ranges are: the widest of 95 of 100."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One length with its truth."""

    true_mm: float
    found: Length

    @property
    def inside(self) -> bool:
        """Whether the truth lies in the range."""
        return self.found.low_mm <= self.true_mm <= self.found.high_mm


def tried(rng: np.random.Generator, size_px: tuple[int, int], *, drawn: bool = True) -> tuple[Tried, Tried]:
    """Take one photo; return a length between two places and the width of a cylinder.

    Where it is not ``drawn``, the card's corners are where they are seen but for what finding them leaves.
    """
    one = shot(rng, size_px=size_px)
    card = find_card(photo(one, rng)) if drawn else card_of(one, rng)
    fitted = fitted_camera(card, size_px, _told_lens(one, rng))
    true_mm, above, turn = rng.uniform(40, 100), rng.uniform(-10, 10), rng.uniform(0, 2 * np.pi)
    drawn_mm = true_mm / (1.0 + rng.normal(0.0, PRINT_SHARE))  # in the card's own millimetres
    along = np.array([np.cos(turn), np.sin(turn), 0.0])
    ends = np.array([90.0, 120.0, -above]) + np.outer([-0.5, 0.5], drawn_mm * along)
    skew = rng.uniform(-SKEW_DEG, SKEW_DEG)
    edges = cylinder_edges_px(one, drawn_mm, above, rng.uniform(100, 160), along, skew)
    flat, round_ = (
        measured(fitted, pair + rng.normal(0.0, CLICK_PX, (2, 2)), is_round=is_round)
        for is_round, pair in ((False, one.seen_px(ends)), (True, edges))
    )
    return Tried(true_mm=true_mm, found=flat), Tried(true_mm=true_mm, found=round_)


def card_of(one: Shot, rng: np.random.Generator, off_px: float = 0.15) -> FoundCard:
    """Return the card's corners as a camera sees them, with what finding them leaves: one standard deviation."""
    corners_mm = np.vstack([mark.corners_mm for mark in marks()])
    seen = one.seen_px(corners_mm)
    return FoundCard(seen_px=seen + rng.normal(0.0, off_px, seen.shape), card_mm=corners_mm, marks_n=len(marks()))


def _told_lens(one: Shot, rng: np.random.Generator) -> float | None:
    """Return what the file says of the lens: nothing in half of them."""
    told = FILM_MM * one.focal_px / max(one.size_px) * float(np.exp(rng.normal(0.0, FOCAL_KNOWN)))
    return told if rng.random() < 0.5 else None


def main(photos_n: int) -> None:
    """Print shares inside, and ranges in percent each way."""
    for called, size_px in SIZES_PX.items():
        rng = np.random.default_rng(93)
        both = [tried(rng, size_px) for _ in range(photos_n)]
        print(f"{photos_n} photos of {called}", flush=True)
        for kind, some in zip(("two places", "cylinder"), zip(*both, strict=True), strict=True):
            wide = np.array([one.found.half_percent for one in some])
            share, over = np.mean([one.inside for one in some]), np.mean(wide > 3.0)
            worst = {name: np.median([one.found.parts_mm[name] for one in some]) for name in some[0].found.parts_mm}
            print(
                f"  {kind}: {share:.1%} inside; range ± {np.median(wide):.2f} % (median), "
                f"± {np.quantile(wide, NEAREST):.2f} % (95 of 100), ± {wide.max():.2f} % (widest); over 3 %: {over:.1%}"
            )
            print("   ", ", ".join(f"{name} {mm:.2f} mm" for name, mm in worst.items()), "(medians)")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)

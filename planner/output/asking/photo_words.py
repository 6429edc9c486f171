"""A length from a photo, in words and as JSON: its range, what makes the range, and when to take the photo again."""

from __future__ import annotations

from planner.photo import Length

MOST_PERCENT = 3.0
"""A range wider than this each way is no measurement to choose a size by: the promise of the command."""
TILT_MOST_DEG, AWAY_LEAST_MM = 25.0, 700.0
"""Photos more tilted, or from nearer, are taken again; no source."""
BETTER = {
    "points": "set both points on an enlarged picture, of a photo with 12 million pixels or more",
    "height": "lay the card at the height of the limb's middle, and say --height-off if it is known better",
    "card and lens": "lay the card nearer to the points, and tilt the camera by 5 to 15 degrees",
    "print": "measure the card's ruler",
    "square": "set the points square across the limb",
}


def again(length: Length) -> str:
    """Say what to do better; empty where the photo will do."""
    if length.half_percent > MOST_PERCENT:
        worst = max(length.parts_mm, key=lambda name: length.parts_mm[name])
        return (
            f"The range is {length.half_percent:.1f} % each way, more than {MOST_PERCENT:g} %: {BETTER[worst]}, and "
            "take it again."
        )
    if length.tilt_deg > TILT_MOST_DEG:
        return (
            f"The camera is tilted {length.tilt_deg:.0f}° from straight down, over {TILT_MOST_DEG:g}°: take it again."
        )
    if length.away_mm < AWAY_LEAST_MM:
        return f"The camera is {length.away_mm / 1000.0:.1f} m away: take it again from about a metre."
    return ""


def photo_lines(length: Length, marks_n: int, *, is_round: bool) -> list[str]:
    """Return a length in a few sentences."""
    what = "Width of the limb" if is_round else "Length"
    parts = ", ".join(f"{name} {part:.1f}" for name, part in length.parts_mm.items() if part >= 0.05)
    seen = f"{marks_n} marks of the card are seen; the camera is {length.away_mm / 1000.0:.2f} m away, tilted"
    return [
        f"{what}: {length.value_mm:.1f} mm, {length.low_mm:.1f} to {length.high_mm:.1f} mm.",
        f"What makes the range, in mm each way: {parts}.",
        f"{seen} {length.tilt_deg:.0f}° from straight down.",
        again(length) or "Nothing of the photo is kept. This measures shape only.",
    ]


def photo_json(length: Length, marks_n: int, *, is_round: bool) -> dict[str, object]:
    """Return a length as JSON."""
    return {
        "schema": "fitwright/photo/1",
        "length_mm": {"value": length.value_mm, "low": length.low_mm, "high": length.high_mm},
        "of": "round limb" if is_round else "two points",
        "parts_mm": dict(length.parts_mm),
        "tilt_deg": length.tilt_deg,
        "away_mm": length.away_mm,
        "marks_n": marks_n,
        "again": again(length),
    }

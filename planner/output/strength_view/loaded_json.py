"""A loaded part as the page's script draws it."""

from __future__ import annotations

import base64

from planner.output.strength_view.loaded_part import LoadedPart
from planner.output.words.strength_words import load_words

Json = dict[str, object]


def loaded_json(shown: LoadedPart) -> Json:
    """Return one loaded part in plain JSON types; ``stream`` is what ``painted`` says."""
    paint = shown.paint
    return {
        "unknown": shown.unknown,
        "said": load_words(shown.one),
        "colours_said": shown.colours_said,
        "feature": shown.finding.feature,
        "percent": shown.finding.measured,
        "stream": None if paint is None else base64.b64encode(paint.stream).decode(),
        "step_percent": None if paint is None else float(f"{paint.step_percent:.6g}"),
        "places": [
            {"percent": round(percent, 2), "at": [round(float(value), 2) for value in at]}
            for percent, at in shown.places
        ],
        "section": None
        if not shown.section or shown.section_percent is None
        else {
            "percent": round(shown.section_percent, 2),
            "rings": [[round(float(value), 2) for value in ring.ravel()] for ring in shown.section],
        },
        "bend": _bend(shown),
        "bend_words": shown.bend_said,
    }


def _bend(shown: LoadedPart) -> Json | None:
    """Return how it bends; None where that is not known."""
    fit, bend = shown.fit, shown.bend
    if fit is None or bend is None:
        return None
    return {
        "middle": [round(float(value), 3) for value in fit.middle_mm],
        "half": round(fit.half_mm, 3),
        "powers": [power for row in fit.powers for power in row],
        "amounts": [float(f"{value:.4g}") for value in fit.amounts_mm.ravel()],
        "times": shown.exaggerated,
        "most_mm": float(f"{bend.most_mm:.4g}"),
    }

"""What ``fitwright start`` answers as JSON."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from planner.assembly import Doubt
from planner.finding import Guess
from planner.job import Job
from planner.output.json.plan_json import guesses_json

Json = dict[str, object]


def doubt_json(doubt: Doubt, settles_n: int) -> Json:
    """Return one open question with its options; ``share`` is how likely each is by form."""
    return {
        "id": doubt.id,
        "text": doubt.text,
        "options": [{"name": one.name, "text": one.text, "share": one.share} for one in doubt.options],
        "default": doubt.default,
        "settles_n": settles_n,
        "features": [list(feature) for feature in doubt.features],
    }


def start_json(
    file: str,
    job: Job,
    guesses: Iterable[Guess],
    doubts: Sequence[Doubt],
    settles: Mapping[str, int],
    answered: Iterable[str],
) -> Json:
    """Return the started job: its parts, its guesses, the questions left, and those that were answered."""
    return {
        "schema": "fitwright/start/1",
        "file": file,
        "parts": [part.name for part in job.parts],
        "guesses": guesses_json(tuple(guesses)),
        "questions": [doubt_json(doubt, settles.get(doubt.id, 0)) for doubt in doubts],
        "answered": list(answered),
    }

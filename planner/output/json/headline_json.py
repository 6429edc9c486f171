"""What a person reads first, and what is asked, as plain JSON types."""

from __future__ import annotations

from dataclasses import asdict
from itertools import zip_longest

from planner.rules import Headline, Question


def asked_json(question: Question) -> dict[str, object]:
    """Return one question with its answers."""
    told = asdict(question)
    del told["shares"]  # each option carries its own
    return {
        **told,
        "options": [
            {"name": name, "text": text, "share": share}
            for (name, text), share in zip_longest(question.options, question.shares)
        ],
        "features": [list(feature) for feature in question.features],
    }


def headline_json(headline: Headline) -> dict[str, object]:
    """Return what ends it, what hangs on answers, and how much is fine."""
    return {**asdict(headline), "ends": list(headline.ends), "hangs_on": list(headline.hangs_on)}

"""Questions and headline as plain JSON: an answer file can be written from them."""

from __future__ import annotations

import json

from planner.output.json.headline_json import asked_json, headline_json
from planner.rules import Headline, Question


def test_a_question_tells_its_answers_by_name() -> None:
    """Names as an answer file takes them, texts, the usual one, and what it settles."""
    question = Question(
        id="duty-plates",
        text="What do they do?",
        options=(("load", "they carry load"), ("cover", "they only cover")),
        default="load",
        settles_n=2,
        features=(("a", "wall"), ("b", "wall")),
        shares=(0.8, 0.2),
    )

    assert json.loads(json.dumps(asked_json(question))) == {
        "id": "duty-plates",
        "text": "What do they do?",
        "options": [
            {"name": "load", "text": "they carry load", "share": 0.8},
            {"name": "cover", "text": "they only cover", "share": 0.2},
        ],
        "default": "load",
        "settles_n": 2,
        "features": [["a", "wall"], ["b", "wall"]],
    }


def test_a_headline_has_its_three_parts() -> None:
    """What ends it, what hangs on answers, how many features are fine, and how many points are open."""
    told = headline_json(Headline(ends=("a: thin",), hangs_on=("What is it?",), fine_n=3, open_n=5))

    assert told == {"ends": ["a: thin"], "hangs_on": ["What is it?"], "fine_n": 3, "open_n": 5}

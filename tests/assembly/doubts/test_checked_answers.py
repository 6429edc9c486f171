"""Answers by id: those known become edits, any other is one clear sentence."""

from __future__ import annotations

import pytest

from planner.assembly import Doubt, Option
from planner.assembly.doubts.checked_answers import given_edits
from planner.errors import CommandError
from planner.job import Edit

SHELL = Edit(table="part", name="cuff", put={"duty": "shell"})
DOUBT = Doubt(
    id="duty-shells",
    text="What does cuff do?",
    options=(
        Option(name="shell", text="it is a shell", edits=(SHELL,), share=0.8),
        Option(name="load", text="it carries load", edits=(), share=0.2),
    ),
    default="shell",
    features=(("cuff", ""),),
)


def test_an_answer_gives_its_edits() -> None:
    """Only the questions that are answered are."""
    assert given_edits([DOUBT], {"duty-shells": "shell"}, "a.toml") == (SHELL,)
    assert given_edits([DOUBT], {}, "a.toml") == ()


@pytest.mark.parametrize(
    ("answers", "told"),
    [
        ({"duty-shell": "shell"}, "a.toml duty-shell: no open question has this id; did you mean 'duty-shells'?"),
        ({"duty-shells": "shel"}, "a.toml duty-shells: 'shel' is not one of its answers; did you mean 'shell'?"),
    ],
)
def test_an_unknown_answer_is_one_sentence(answers: dict[str, object], told: str) -> None:
    """The nearest id or option is named."""
    with pytest.raises(CommandError) as refused:
        given_edits([DOUBT], answers, "a.toml")

    assert str(refused.value).startswith(told)

"""Answers that a person gave, by the ids of questions: checked, and turned into edits."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from planner.assembly.doubts.doubt import Doubt
from planner.errors import CommandError, nearest
from planner.job import Edit


def given_edits(doubts: Sequence[Doubt], answers: Mapping[str, object], where: str) -> tuple[Edit, ...]:
    """Return the edits of every answer, in the order of the questions.

    Parameters
    ----------
    doubts
        All questions that may be answered.
    answers
        The name of an option by the id of a question.
    where
        The file, or the page, that mistakes are told of.

    Raises
    ------
    CommandError
        Where no question has that id, or no option of it that name; nothing is to be written then.
    """
    by_id = {doubt.id: doubt for doubt in doubts}
    for ident, name in answers.items():
        if ident not in by_id:
            todo = nearest(ident, by_id) if by_id else "nothing is left to answer"
            raise CommandError(where=f"{where} {ident}", wrong="no open question has this id", todo=todo)
        names = [option.name for option in by_id[ident].options]
        if name not in names:
            raise CommandError(
                where=f"{where} {ident}", wrong=f"'{name}' is not one of its answers", todo=nearest(str(name), names)
            )
    return tuple(
        edit for ident, doubt in by_id.items() if ident in answers for edit in doubt.option(str(answers[ident])).edits
    )

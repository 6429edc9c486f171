"""What ``start`` says: short, names whole, the next command last."""

from __future__ import annotations

from planner.assembly import doubts_of
from planner.output.asking.start_text import start_lines
from tests.assembly.by_hand.truths import scene


def test_parts_questions_and_the_next_command_fit_a_screen() -> None:
    """Eight parts: at most 24 lines of 80 columns, every part's name whole, every question named."""
    job, surveys = scene("linkage")
    doubts = doubts_of(job, surveys)
    lines = start_lines("m/job.toml", "m", job, doubts, {doubts[0].id: 9, doubts[1].id: 3}, 0)
    text = "\n".join(lines)

    assert len(lines) <= 24
    assert max(map(len, lines)) <= 80
    assert all(part.name in text for part in job.parts)
    assert all(doubt.id in text for doubt in doubts)
    assert "which settle 12 open points" in text
    assert lines[-2:] == ["Next: fitwright start m --ask", "then: fitwright check m/job.toml"]


def test_once_all_is_answered_the_check_is_next() -> None:
    """No question left: check; where the unit was answered, the meshes are measured in it first."""
    job, _ = scene("linkage")

    assert start_lines("m/job.toml", "m", job, (), {}, 7)[-1].endswith("Next: fitwright check m/job.toml")
    assert start_lines("m/job.toml", "m", job, (), {}, 1, anew=True)[-1].endswith("fitwright start m --ask")

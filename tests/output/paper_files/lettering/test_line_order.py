"""Lines with both directions: pieces stand as the Unicode Bidirectional Algorithm puts them."""

from __future__ import annotations

import itertools

import pytest
from bidi import get_display

from planner.output.paper_files.lettering.line_order import level_runs, placed_line, visual_order
from planner.output.paper_files.type_face import REGULAR, letters

LINES = (
    "وزنه 234 g؛ الحد 250 g",
    "لوح 3، كيس 2، غير معكوسة",
    "املأ bench/record.toml ثم نفّذ: fitwright release JOB",
    "cuff وsaddle وbuckle",
    "الجانب الأيسر، مطبوع بنسبة 106.5 % من المقاس",
    "deck (plate 2)",
    "قطعة deck (plate 2) ثم (نعم) هنا",
    "قطعة (deck) هنا",
)


@pytest.mark.parametrize("text", LINES)
def test_pieces_stand_from_left_to_right_as_the_algorithm_says(text: str) -> None:
    """python-bidi 0.6's other implementation, in Rust (UAX 9), gives the same order of letters on a line that runs leftward; it mirrors none."""
    runs = level_runs(text, leftward=True)
    ours = "".join(
        run[::-1] if level % 2 else run
        for run, level in (runs[index] for index in visual_order([level for _, level in runs]))
    )

    assert ours == get_display(text, base_dir="R")


def test_pieces_neither_overlap_nor_leave_the_line() -> None:
    """Left ends and widths of all pieces tile the line, and the first one that is read stands at the right."""
    letters()
    line = placed_line(LINES[0], REGULAR, 10.0, leftward=True)
    ordered = sorted(line.pieces, key=lambda one: one.left_pt)

    assert ordered[0].left_pt == pytest.approx(0.0, abs=1e-6)
    for one, other in itertools.pairwise(ordered):
        assert one.left_pt + one.wide_pt == pytest.approx(other.left_pt, abs=1e-6)
    assert ordered[-1].left_pt + ordered[-1].wide_pt == pytest.approx(line.wide_pt, abs=1e-6)
    assert line.pieces[0] == ordered[-1]

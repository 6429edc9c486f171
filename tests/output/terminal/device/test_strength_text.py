"""Lines of strength: 80 columns, and a reason where there is no figure."""

from __future__ import annotations

from planner.output.terminal.device.strength_text import strength_lines
from planner.strength import Screened, Unscreened, unscreened


def test_an_unknown_part_is_told_with_what_to_answer() -> None:
    """Verdict first, the question last, no line too long."""
    part = Screened(part="jaw", known=False, unknown=Unscreened.NO_LOAD)
    lines = list(strength_lines("x at 100 %", None, [(part, unscreened("jaw", Unscreened.NO_LOAD))]))

    assert lines[0].startswith("HOLD")
    assert any("jaw: not known, no load is stated" in line for line in lines)
    assert "how hard does the load act on jaw?" in " ".join(lines[-2:])
    assert max(map(len, lines)) <= 80
    assert "  no part carries load" in strength_lines("x", None, [])

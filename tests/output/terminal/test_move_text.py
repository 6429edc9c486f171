"""``move`` in a terminal: 80 columns, what does not pass first, nothing that is unknown left out."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.mechanism import CordMove, JointMove, Moved, Tip, still
from planner.output.terminal.move_text import move_lines
from planner.scale import Scale


def _joint(name: str, unknown: str = "") -> JointMove:
    return JointMove(
        name=name,
        parts=("deck", "jaw"),
        kind="turns",
        axis=(-1e-9, 0.0, 1.0),
        at_mm=(1.0, 2.0, 3.0),
        free_deg=(None, 30.0),
        stops=(),
        needs_deg=(0.0, 25.0),
        unknown=unknown,
    )


def test_all_that_is_known_and_unknown_is_told_in_80_columns() -> None:
    """Long names wrap, a range without a stop says so, and what is not known says why."""
    moved = Moved(
        scale_percent=100.0,
        joints=(_joint("bracket-on-the-far-left-side to pulley-of-the-return-cord " * 2), _joint("b", "no mesh")),
        cords=(
            CordMove(
                name="pull",
                part="deck",
                joint="b",
                travel_mm=9.0,
                usual_mm=(39.1, 80.2),
                pull_unknown="grip_n is not stated",
            ),
            CordMove(name="other", part="deck", joint="", unknown="its path is not known"),
        ),
        pins=(),
        tip=Tip(copy="jaw", wobble_mm=(3.0, 2.0), spread_mm=1.5, knot="move the knot of jaw by 0.4 mm"),
        unplaced=(("cap", "nothing says where it stands"),),
        notes=("a pin of arm lies in a slot",),
    )
    no = Finding(
        rule="move.range", part="jaw", verdict=Verdict.NO_GO, why="it stops", remedy="file it", question="Why?"
    )
    lines = list(move_lines("device at 100 %", moved, [no]))

    assert all(len(line) <= 80 for line in lines)
    assert lines[0].startswith("NO-GO")
    text = "\n".join(lines)
    for said in ("it stops", "file it", "no stop to 30.0°", "no mesh", "grip_n is not stated", "its path is not known"):
        assert said in text, said
    for said in (
        "wobbles 3.0 mm",
        "1.5 mm away",
        "cap: nothing says where it stands",
        "Why?",
        "usual are 39 mm",
        "lies in a slot",
    ):
        assert said in text, said
    assert "-0.0" not in text


def test_a_go_with_a_caution_is_told() -> None:
    """A slide that nothing stops passes, and its line says that it can run off."""
    care = Finding(rule="move.range", part="slide", verdict=Verdict.GO, why="it goes", caution="It can run off.")
    lines = list(move_lines("device", Moved(scale_percent=100.0, joints=(), cords=(), pins=(), tip=None), [care]))

    assert lines[0].startswith("GO")
    assert "It can run off." in "\n".join(lines)


def test_a_grip_and_a_wobble_without_spread_are_told() -> None:
    """What a person can keep up, as a grip; and why nine of ten printers wobble no less than the worst."""
    cord = CordMove(name="pull", part="deck", joint="b", travel_mm=9.0, grip_for_n=(44.0, 1.3, 2.2, 3.6, 5.1))
    tip = Tip(copy="jaw", wobble_mm=(3.8, 3.8), spread_mm=None)
    moved = Moved(scale_percent=100.0, joints=(), cords=(cord,), pins=(), tip=tip)
    text = " ".join(" ".join(move_lines("device", moved, [])).split())

    assert "a pull of 44 N, which can be kept up, grips with 1.3 to 3.6 N, 2.2 N expected" in text
    assert "with 5.1 N at most where it grips hardest" in text
    assert "wobbles 3.8 mm at worst, on any printer" in text


def test_a_device_that_does_not_move_says_so() -> None:
    """Go, and one line."""
    lines = list(move_lines("device", still(Scale(100.0)), []))
    assert lines[0].startswith("GO")
    assert any("none" in line for line in lines)

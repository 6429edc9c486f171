"""What is shown of a remedy: its text in the place of the hint, or word that none was found."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.remedy import Costs, Refused, Remedies, Remedy, told

TIGHT = Finding(rule="bore.tight", part="a", feature="pin", verdict=Verdict.NO_GO, why="4.8 mm", remedy="hint")
WALL = Finding(rule="wall.thin", part="a", verdict=Verdict.NO_GO, why="0.7 mm", remedy="print at 129 % or more")
FINE = Finding(rule="bore.loose", part="a", verdict=Verdict.GO, why="fits")
FOUND = Remedies(
    found=(
        Remedy(
            n=1,
            kind="drill",
            text="drill b1 of a to 5.2 mm",
            part="a",
            does=(),
            costs=Costs(minutes_min=3.0, money=0.0),
            leaves_verdict=Verdict.NO_GO,
            refused=(),
            settles=(told(TIGHT),),
        ),
    ),
    unsettled=(
        (
            told(WALL),
            (Refused(kind="settings", text="print with lines of 0.30 mm", why="the nozzle lays none so narrow"),),
        ),
    ),
)


def test_a_proved_remedy_takes_the_place_of_the_hint() -> None:
    """The number that --do takes is added where people read it, and nowhere else."""
    plain, numbered = FOUND.shown([TIGHT]), FOUND.shown([TIGHT], numbered=True)

    assert plain[0].remedy == "drill b1 of a to 5.2 mm"
    assert numbered[0].remedy == "drill b1 of a to 5.2 mm (--do 1)"
    assert FOUND.numbered(1) is FOUND.for_finding(TIGHT)
    assert FOUND.numbered(2) is None


def test_where_none_was_found_no_percentage_is_promised() -> None:
    """A hint that was not proved is not shown; what was tried is."""
    (shown,) = FOUND.shown([WALL])

    assert "129" not in shown.remedy
    assert "no remedy was found" in shown.remedy
    assert "the nozzle lays none so narrow" in shown.remedy


def test_a_way_that_only_an_open_question_forbids_is_told_with_that_question() -> None:
    """Lines of 0.40 mm do unless the lid carries load: that is said, not that nothing works."""
    way = Refused(
        kind="settings",
        text="print with lines of 0.40 mm",
        why="if the lid carries load: thinnest wall 0.80 mm",
        unless="the lid carries load",
        question_id="duty-covers",
    )
    (shown,) = Remedies(unsettled=((told(WALL), (way,)),)).shown([WALL])

    assert shown.remedy.startswith(
        "answer duty-covers first (fitwright start --ask); unless the lid carries load, this does: print with lines"
    )


def test_what_passes_stays_as_it_is() -> None:
    """A finding that needs nothing is not touched."""
    assert FOUND.shown([FINE]) == (FINE,)

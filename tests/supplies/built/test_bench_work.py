"""Work by hand is read off the findings as data, for the openings of each piece by its whole name."""

from __future__ import annotations

from planner.finding import Finding, Verdict, Work
from planner.supplies.built.bench_work import works_on


def test_a_name_that_begins_like_another_takes_none_of_its_work() -> None:
    """Of "screw" and "screw in deck": the second one's drilling is not the first one's; what is a plain go is no work."""
    work = Work(kind="drill", hardware="screw in deck", to_mm=3.1)
    asks, passes = (
        Finding(rule="bore.tight", part="a", feature="screw in deck in b1", verdict=verdict, why="tight", work=work)
        for verdict in (Verdict.GO_WITH_WORK, Verdict.GO)
    )

    assert works_on("screw", [asks]) == ()
    assert works_on("screw in deck", [asks, passes]) == ((asks, work),)

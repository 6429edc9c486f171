"""Findings that one sentence can tell."""

from __future__ import annotations

from planner.finding import Finding, Verdict, Work
from planner.output.words.alike_findings import alike


def _thin(part: str, measured_mm: float, verdict: Verdict = Verdict.NO_GO, remedy: str = "thicken it") -> Finding:
    return Finding(
        rule="wall.thin", part=part, verdict=verdict, why="thin", measured=measured_mm, limit=1.35, remedy=remedy
    )


def test_the_worst_stands_first_and_the_others_are_counted() -> None:
    """Four walls of one rule: the thinnest is told, the rest by part, its own part first (by hand)."""
    (group,) = alike([_thin("a", 1.2), _thin("b", 0.6), _thin("b", 0.9), _thin("a", 1.0)])

    assert group.worst.measured == 0.6
    assert group.also == "Also: 1 more here and a (2)."


def test_many_parts_are_counted_not_listed() -> None:
    """Beyond four other parts, the rest is a number."""
    (group,) = alike([_thin(name, 1.0) for name in "abcdefg"])

    assert group.also == "Also: b, c, d, e and 2 more."


def test_different_work_stays_apart() -> None:
    """Drilling to two sizes is two things to do."""
    work = [_thin("a", 3.0, Verdict.GO_WITH_WORK, f"drill to {d} mm") for d in ("3.1", "3.4", "3.1")]

    assert [len(group.findings) for group in alike(work)] == [2, 1]


def test_drilling_to_one_size_in_several_parts_is_one_thing_to_do() -> None:
    """Two bores to 8 mm and one to 8.2: the second part is named with the number that drills it there."""
    drills = [
        Finding(
            rule="bore.tight",
            part=part,
            verdict=Verdict.GO_WITH_WORK,
            why="tight",
            remedy=f"drill b1 of {part} to {to_mm:g} mm (--do {n})",
            work=Work(kind="drill", hardware=part, to_mm=to_mm),
        )
        for n, (part, to_mm) in enumerate([("crank", 8.0), ("drum", 8.0), ("gear", 8.2)], 1)
    ]
    first, other = alike(drills)

    assert (first.also, other.also) == ("Also: drum (--do 2).", "")


def test_a_part_for_which_nothing_helps_is_told() -> None:
    """A finer nozzle does for b and for a; for c nothing was found, and the number beside it does not speak for it."""
    cured = "fit a nozzle of 0.3 mm (--do 1)"
    walls = [_thin("a", 0.9, remedy=cured), _thin("b", 1.0, remedy=cured), _thin("c", 1.1, remedy="change the drawing")]
    (group,) = alike(walls)

    assert group.also == "Also: b and c (no remedy)."

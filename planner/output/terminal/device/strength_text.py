"""Where loaded parts are weakest at one size, in a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.finding import Finding, worst
from planner.output.terminal.finding_list import entry
from planner.output.words.few_lines import wrapped
from planner.output.words.strength_words import SCREENING, proof_words
from planner.strength import Screened


def strength_lines(
    title: str, load_n: float | None, parts: Sequence[tuple[Screened, Finding]], hardest: str = ""
) -> Iterator[str]:
    """Yield the lines of ``fitwright strength``, each at most 80 columns wide; ``hardest`` is about the hand's pull."""
    yield from wrapped(title, first=f"{worst(finding for _, finding in parts).value.upper()}  ", rest="  ")
    for _, finding in parts:
        if not finding.verdict.passes:
            yield from entry(finding)
    yield ""
    yield "WEAKEST PLACES  share of the low strength; places in the drawn mesh"
    if not parts:
        yield "  no part carries load"
    for one, finding in sorted(parts, key=lambda each: -(each[1].measured or 0.0)):
        yield from wrapped(_row(one, finding), first="  ", rest="    ")
    yield ""
    known = [one for one in parts if one[1].measured is not None]
    if load_n is not None and known:
        weakest = max(known, key=lambda each: each[1].measured or 0.0)
        yield from wrapped(proof_words(load_n, weakest[0].part))
    yield from wrapped(hardest) if hardest else ()
    yield from wrapped(f"This is {SCREENING}.")
    asked = dict.fromkeys(finding.question for _, finding in parts if finding.question)
    if asked:
        yield ""
        yield "TO BE ANSWERED OR MEASURED"
        for question in asked:
            yield from wrapped(question, first="  ", rest="    ")


def _row(one: Screened, finding: Finding) -> str:
    """Return what is known of one part under one kind of load."""
    if one.weakest is None or one.case is None or finding.measured is None:
        return f"{one.part}: not known, {one.unknown}"
    weak = one.weakest
    place = ", ".join(f"{round(value, 1) + 0.0:.1f}" for value in weak.at_mm)
    doubt = "" if one.known else " (guessed)"
    return (
        f"{one.part}: {finding.measured:.0f} %, {weak.stress_at_mpa(finding.measured):.1f} MPa {weak.direction} the "
        f"layers at [{place}] mm; {one.case.said}{doubt}"
    )

"""Where loaded parts are weakest at one size, in a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from planner.finding import Finding, Verdict, worst
from planner.output.terminal.finding_list import entry
from planner.output.words.few_lines import wrapped
from planner.output.words.strength_words import SCREENING, difference_words, lasting_words, proof_words, unproved_words
from planner.phrases import numbers
from planner.rules import Lasting
from planner.strength import ABSURD_PERCENT, Screened


def strength_lines(
    title: str,
    load_n: float | None,
    parts: Sequence[tuple[Screened, Finding]],
    hardest: str = "",
    lasting: Sequence[Lasting] = (),
) -> Iterator[str]:
    """Yield the lines of ``fitwright strength``, each at most 80 columns wide.

    ``hardest`` is about the hand's pull, ``lasting`` what heat and time leave of a strength.
    """
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
        broken = list(dict.fromkeys(one.part for one, finding in known if finding.verdict is Verdict.NO_GO))
        yield from wrapped(unproved_words(broken) if broken else proof_words(load_n, weakest[0].part))
        yield from wrapped(lasting_words(weakest[0].part, weakest[1].measured or 0.0, lasting))
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
        return f"{one.part}: not known, {one.unknown or one.odd}"
    weak, by = one.weakest, one.elements
    counts = None if by is None or by.ratio <= 1.0 else by
    at_mm, direction = (counts.at_mm, counts.direction) if counts else (weak.at_mm, weak.direction)
    stress_mpa = counts.stress_mpa if counts else weak.stress_at_mpa(finding.measured)
    place = numbers(at_mm)
    doubt = "" if one.known else " (the worst that nobody has ruled out)"
    both = "" if by is None else f". {difference_words(by)}"
    return (
        f"{one.part}: {_share_words(finding.measured, stress_mpa)} {direction} the layers at [{place}] mm; "
        f"{one.case.said}{doubt}{both}"
    )


def _share_words(share_percent: float, stress_mpa: float) -> str:
    """Say what a part takes: more than ten times its strength is no figure."""
    if share_percent > ABSURD_PERCENT:
        return f"over {ABSURD_PERCENT:,.0f} %"
    return f"{share_percent:.0f} %, {stress_mpa:.1f} MPa"

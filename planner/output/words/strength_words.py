"""Where loaded parts are weakest, in a few words: shares of the strength, and a proof load for the bench."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding
from planner.job import kind_of
from planner.phrases import listed, numbers
from planner.rules import Lasting
from planner.strength import Bend, ByElements, Screened

SCREENING = (
    "a screening. The share is of one short load at room temperature, and sees notches only with --elements; no figure "
    "is a load to count on"
)
BY_ELEMENTS = "finite elements"
"""What a finding says that rests on them."""
UNNOTCHED = " Bores, steps and corners may take three times that; fitwright strength JOB --elements sees them."
"""A small bore in a pulled plate takes three times (Kirsch 1898)."""
ALIKE_SHARE = 0.15
"""Beam pass and elements say the same within this share (the contract of the screening)."""
TIES_MOST_N = 2
"""So many places that take as much are named beside the weakest one."""
PROOF_RATIO = 1.5
"""A proof load over the load that is stated; common practice, no source."""


def strength_line(findings: Sequence[Finding]) -> str:
    """Return a line about the weakest part of all that pass; empty where none was screened."""
    of = [one for one in findings if kind_of(one.rule).gives == "strength" and one.measured is not None]
    passed = [one for one in of if one.verdict.passes]
    if not passed:
        return ""
    weakest = max(passed, key=lambda one: one.measured or 0.0)
    parts_n = len({one.part for one in passed})  # a part may be screened under two kinds of load
    many = f"of {parts_n} loaded parts that pass, {weakest.part} is the weakest"
    return (
        f"Strength: {many if parts_n > 1 else f'one loaded part passes, {weakest.part}'}. Its load takes "
        f"{weakest.measured:.0f} % of the strength of a test bar printed the same way (the low end of its range)."
        f"{'' if BY_ELEMENTS in weakest.why else UNNOTCHED}"
    )


def difference_words(by: ByElements) -> str:
    """Return in one sentence why finite elements and the beam pass differ under the same loads, or that they agree."""
    if by.unknown:
        return by.doubt
    loads = f"under the worst load ({by.case_said})" if by.case_said else "under the same loads"
    both = f"{by.share_percent:.0f} % by elements, {by.beam_percent:.0f} % by beam formulas {loads}"
    if by.share_percent > (1.0 + ALIKE_SHARE) * by.beam_percent:
        why = "a bore, a step or a corner raises stress there, which cuts do not see; the elements count"
    elif by.share_percent < (1.0 - ALIKE_SHARE) * by.beam_percent:
        why = "elements leave out the surroundings of loads, which the cuts go through; the beam formulas count"
    else:
        why = f"they agree within {100.0 * ALIKE_SHARE:.0f} %"
    if by.also_mm:
        places = ", ".join(f"[{numbers(at)}]" for at in by.also_mm[:TIES_MOST_N])
        more = "" if len(by.also_mm) <= TIES_MOST_N else " and elsewhere"
        why = f"{why}; elements find as much, within 5 %, at {places}{more} mm"
    return f"{both}: {why}" if by.stands else f"{both}: {why}; {by.doubt}"


def pull_words(pull_n: float | None, share: float) -> str:
    """Return what a hand may do that pulls with all it has; empty where its greatest pull is not measured."""
    if pull_n is None:
        return ""
    return (
        f"Only the {pull_n * share:.3g} N that the hand can keep up are judged. A hand that pulls with all of its "
        f"{pull_n:g} N loads the cords, and what they pull on, {1.0 / share:.2g} times as much. Say so at hand-over."
    )


def lasting_words(part: str, share_percent: float, lasting: Sequence[Lasting]) -> str:
    """Return what heat, a lasting load and repeated loads leave of the strength, and what a part takes of that."""
    if not lasting:
        return ""
    each = "; ".join(
        f"{one.name} {100.0 * one.share:.0f} % of it is left"
        + (f", of which {part} takes {share_percent / one.share:.0f} %" if one.share > 0.0 else "")
        for one in lasting
    )
    return (
        f"The strength is that of a short test at room temperature: {each}. Where several come together, they "
        "multiply. "
        f"Sources: {'; '.join(dict.fromkeys(one.source for one in lasting))}."
    )


def proof_words(load_n: float, part: str) -> str:
    """Return what to try on the bench, and what to watch."""
    return (
        f"Before use, put a proof load of {PROOF_RATIO * load_n:g} N ({PROOF_RATIO:g} times what is stated) on the "
        f"device for 60 s on the bench, nobody near it. Watch {part} at its weakest place: white marks, cracks, layers "
        "that open, or a bend that stays mean that it fails the test."
    )


def unproved_words(parts: Sequence[str]) -> str:
    """Say that parts which a load would break are mended before any test with it."""
    return (
        f"No proof load for this device as it is: by the figures the stated load alone would break {listed(parts)}. "
        "Mend that first; a test could throw pieces."
    )


def load_words(one: Screened) -> str:
    """Return under which load a part was screened; empty where it was not."""
    if one.case is None:
        return ""
    by = one.elements
    said = by.case_said if by is not None and by.ratio > 1.0 and by.case_said else one.case.said
    return said if one.known else f"{said} (guessed)"


def colour_words(method: str, one: Screened, others: Sequence[Screened] = ()) -> str:
    """Say what the colours of a loaded part rest on, where they tell nothing, and which loads they leave out.

    ``others`` are the same part under loads that take less of it.
    """
    by = (
        "The colours are by finite elements; next to where loads enter they tell nothing."
        if method == "elements"
        else "The colours are by beam formulas; beyond the outermost cuts they tell nothing."
    )
    if not others:
        return by
    return (
        f"{by} They are for {load_words(one)} alone; {listed(map(load_words, others))} takes less and is not in them."
    )


def elements_words(part: str) -> str:
    """Return the command that asks finite elements about a part."""
    return f"fitwright strength JOB --part {part} --elements"


def bend_words(part: str, bend: Bend | None) -> str:
    """Say how far a part bends, seen from what holds it, or how that can be known."""
    if bend is None:
        return f"How it bends is not known: only finite elements tell ({elements_words(part)})."
    low, high = bend.low_share * bend.most_mm, bend.high_share * bend.most_mm
    return (
        f"The place that bends farthest moves {bend.most_mm:.2g} mm, measured from what holds the part; over the range "
        f"of the material's stiffness that is {low:.2g} to {high:.2g} mm. Heat and time add to it."
    )

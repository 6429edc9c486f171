"""``check`` in a terminal: on one screen what ends it, what hangs on answers, what to do, and what is well."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.finding import Finding, Guess, Verdict
from planner.output.terminal.finding_list import SIGN_N, WAIT, entry, waits
from planner.output.words.alike_findings import alike
from planner.output.words.few_lines import ENTRY_LINES, Section, in_room, wrapped
from planner.output.words.move_words import move_line
from planner.output.words.strength_words import strength_line
from planner.phrases import capital, listed, plural
from planner.rules import Checked, Question
from planner.size import MeasureScale

BORE = re.compile(r"\bb\d+\b")
IN_BORE = re.compile(r"(?P<what>.* in |)(?P<bore>b\d+)(?P<size> \(.*\)|)")
"""A feature of a bore: what sits in it, its name, its size as drawn."""
LINES, ENDLESS = 40, 1_000_000
NAMED_MOST = 4
"""So many rules that were not asked are named on one screen."""
QUESTIONS_MOST = 5
"""One screen, with its last line for the prompt."""
CAREFUL = "This checks shape and plan only; a licensed practitioner and local rules decide about a person."
TITLES = {
    Verdict.NO_GO: "What stops it now",
    Verdict.HOLD: "Open",
    Verdict.GO_WITH_WORK: "To do by hand",
}


def check_lines(
    checked: Checked, name: str, size: Sequence[str], nearest: str, command: str, *, everything: bool = False
) -> list[str]:
    """Return what ``check`` says, at most 40 lines of 80 columns unless ``everything`` is asked for.

    Parameters
    ----------
    name
        What is checked, with its size.
    size
        Sentences about the size: where it comes from, what each measure asks for.
    nearest
        A sentence about the nearest size that works; empty where there is none to tell.
    command
        How to ask for the rest, such as ``fitwright check job.toml``.
    """
    head = [f"{checked.verdict.value.upper()}  {name}"]
    head += [line for sentence in size for line in wrapped(sentence, lines_n=None if everything else 2)]
    foot = [*_well(checked), *_not_checked(checked, short=not everything)]
    foot += [] if everything else _more(command)
    moves = " ".join(filter(None, (move_line(checked.findings), strength_line(checked.findings))))
    foot = ["", *(wrapped(nearest) if nearest else ()), *(wrapped(moves) if moves else ()), *foot, *wrapped(CAREFUL)]
    titles = TITLES
    if any(question.options for question in checked.questions):
        titles = {**TITLES, Verdict.NO_GO: "Stops it, whatever is answered"}
    sections = [*_sections(checked.findings, titles, short=not everything), _questions(checked, short=not everything)]
    if everything:
        sections += [_cautions(checked.findings), _guesses(checked.guesses), _passes(checked.findings)]
        return [*head, *in_room(sections, ENDLESS), *foot]
    return [*head, *in_room(sections, LINES - 1 - len(head) - len(foot)), *foot]


def part_lines(checked: Checked, part: str) -> list[str]:
    """Return everything that is said of one part, good and bad; features of which the same is true share an entry."""
    mine = [finding for finding in checked.findings if finding.part == part]
    verdict = max((f.verdict for f in mine), key=lambda v: v.severity, default=Verdict.GO)
    sections = [
        Section(title=title, entries=_by_feature([f for f in mine if f.verdict is one and not waits(f)]))
        for one, title in {**TITLES, Verdict.GO: "Passes"}.items()
    ]
    sections[-1:-1] = _waiting(mine, named=False)
    return [f"{verdict.value.upper()}  {part} at {checked.scale_percent:.4g} %", *in_room(sections, ENDLESS)]


def _by_feature(findings: Sequence[Finding], *, named: bool = False) -> tuple[tuple[str, ...], ...]:
    """Return an entry for each thing said, before it the features it is said of; where ``named``, the part as well."""
    said: dict[tuple[str, ...], list[Finding]] = {}
    for finding in findings:
        said.setdefault((finding.part, _told(finding.why), _told(finding.remedy) if named else ""), []).append(finding)
    return tuple(entry(same[0], where=_where(same, named=named)) for same in said.values())


def _told(text: str) -> str:
    """Return a sentence without the names of bores: what is said of several is the same but for them."""
    return BORE.sub("", text)


def _where(same: Sequence[Finding], *, named: bool) -> str:
    """Return the features that one thing is said of, after the part's name where it is asked for."""
    features = list(dict.fromkeys(f.feature or f.rule for f in same))
    if not named:
        return _together(features)
    part = same[0].part
    return f"{part}, {len(features)} places" if part and len(features) > 1 else part


def _together(features: Sequence[str]) -> str:
    """Return features as a list; bores that hold the same share what is said before and behind their names.

    >>> _together(["screw in b1 (3.30 mm)", "screw in b2 (3.30 mm)", "wall"])
    'screw in b1 and b2 (3.30 mm), wall'
    """
    bores: dict[tuple[str, str], list[str]] = {}
    for feature in features:
        found = IN_BORE.fullmatch(feature)
        key, name = ((found["what"], found["size"]), found["bore"]) if found else ((feature, ""), "")
        bores.setdefault(key, []).append(name)
    return ", ".join(before + (listed(names) if names[0] else "") + behind for (before, behind), names in bores.items())


def _sections(findings: Sequence[Finding], titles: Mapping[Verdict, str], *, short: bool) -> list[Section]:
    """Return a section for each verdict that does not pass; in short, what hangs on an answer is its question."""
    found = []
    for verdict, title in titles.items():
        these = [f for f in findings if f.verdict is verdict and not waits(f)]
        if short:  # what hangs on an answer is its question
            entries = tuple(entry(group.worst, group.also, lines_n=ENTRY_LINES) for group in alike(these))
        else:
            entries = _by_feature(these, named=True)
        found.append(Section(title=title, entries=entries))
    return found if short else [*found, *_waiting(findings, named=True)]


def _waiting(findings: Sequence[Finding], *, named: bool) -> list[Section]:
    """Return what is not to be done before a question is answered: a section for each question."""
    about: dict[str, list[Finding]] = {}
    for finding in findings:
        if waits(finding):
            about.setdefault(finding.question_id, []).append(finding)
    title = f"{WAIT}: this waits for an answer to"
    return [Section(title=f"{title} {one}", entries=_by_feature(mine, named=named)) for one, mine in about.items()]


def _questions(checked: Checked, *, short: bool) -> Section:
    """Return the questions that would change the answer, those that settle most first, each with its answers."""
    told = checked.headline.told(checked.questions)
    asked = checked.questions[:QUESTIONS_MOST] if short else checked.questions
    return Section(
        title=("Questions" if checked.headline.ends else "Questions that could change the answer")
        + (f": {told}" if told else ""),
        entries=tuple(_question(question, short=short) for question in asked),
        least_n=len(asked) and 1,
    )


def _question(question: Question, *, short: bool) -> tuple[str, ...]:
    """Return a question, how much it settles, and what may be answered."""
    settles = f" (settles {question.settles_n})" if question.settles_n > 1 else ""
    text = wrapped(question.text + settles, first=" -    ", rest=" " * SIGN_N, lines_n=ENTRY_LINES if short else None)
    if not question.options:
        return text
    share = question.default_share
    likely = " (usual)" if share is None else f" ({100 * share:.0f} % sure)"
    names = [name + (likely if name == question.default else "") for name, _ in question.options]
    answers = wrapped(
        f"{question.id} = {', '.join(names)}", first="   -> ", rest=" " * SIGN_N, lines_n=2 if short else None
    )
    return (*text, *answers)


def _cautions(findings: Sequence[Finding]) -> Section:
    """Return what passes with a caution, the caution below it."""
    careful = [replace(f, remedy=f.caution) for f in findings if f.verdict is Verdict.GO and f.caution]
    return Section(title="Cautions", entries=_by_feature(careful, named=True))


def _passes(findings: Sequence[Finding]) -> Section:
    """Return what passes without a word of caution."""
    well = [f for f in findings if f.verdict is Verdict.GO and not f.caution]
    return Section(title="Passes", entries=_by_feature(well, named=True))


def _guesses(guesses: Sequence[Guess]) -> Section:
    """Return all guesses with their reasons."""
    told = [f"{guess.what}: {guess.value} ({guess.why})" for guess in guesses]
    return Section(title="Guesses", entries=tuple(wrapped(line, first=" -    ", rest=" " * SIGN_N) for line in told))


def _well(checked: Checked) -> tuple[str, ...]:
    """Return one sentence for all that is well, and for what was compared with nothing."""
    careful = sum(f.verdict is Verdict.GO and bool(f.caution) for f in checked.findings)
    unchecked = checked.features_n - checked.checked_n
    what = "feature or setting" if checked.headline.fine_n == 1 else "features and settings"
    told = f"{checked.headline.fine_n} {what} checked and fine"
    told += f"; {plural(careful, 'caution')}" if careful else ""
    told += f"; {unchecked} not checked: nothing to compare" if unchecked else ""
    told += f"; {plural(len(checked.guesses), 'guess')}" if checked.guesses else ""
    return wrapped(told + ".")


def _not_checked(checked: Checked, *, short: bool) -> tuple[str, ...]:
    """Return what only a plan can check, with the rules that need layers by name."""
    rules, told = checked.not_checked, "Only fitwright plan checks these: plates, spools, dates"
    if not rules:
        return wrapped(told + ".")
    return wrapped(f"{told}, and what needs layers ({listed(rules, most_n=NAMED_MOST if short else None)}).")


def _more(command: str) -> tuple[str, ...]:
    """Return how to see the rest."""
    return wrapped(f"Everything: {command} --all; one part: --part NAME.")


def size_sentences(why: str, measures: Sequence[MeasureScale]) -> list[str]:
    """Return where the size comes from, and what each measure asks for."""
    told = [capital(f"{why}.")]
    for measure in measures:
        room = f"{abs(measure.spare_mm):.1f} mm"
        left = f"leaves {room} of room to grow" if measure.spare_mm >= 0 else f"is {room} too small"
        told.append(f"{measure.name} needs {measure.percent:.1f} %; this size {left}.")
    return told

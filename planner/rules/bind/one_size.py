"""One piece of hardware has one size: all its bores, and the seats of its nuts, are judged with the same one.

A loose bore may be mended by the next stock size. That screw also goes through other bores, and its nut lies in a seat:
the larger size is taken only where all of them take it, as printed or drilled, and then all are judged with it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.fitted_openings import SeatTight
from planner.rules.rule import AtOwnScale, Rule, Wrapped, at_most, just_within, positive

Bound = BoreTight | BoreLoose | BoreEdge | SeatTight
ALIKE_DIGITS = 4
"""Bores whose numbers agree to this many digits (0.1 micrometre) are asked once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A bore of a piece of hardware or of its insert, or the seat of its nut, with its part's own scale, if any."""

    of: BoreCase | SeatTight
    factor: float | None = None

    def scale(self, s: float) -> float:
        """Return the scale of its part at a job's scale."""
        return s if self.factor is None else self.factor

    def takes(self, diameter_mm: float, s: float, *, drilled: bool) -> bool:
        """Return whether it takes another stock size: as it prints, or ``drilled`` where it must be."""
        own = self.scale(s)
        if isinstance(self.of, SeatTight):
            return self.of.sized(diameter_mm).at(own).verdict is Verdict.GO
        stock = stock_with(self.of, diameter_mm)
        if stock is None:
            return False
        has = self.of.finished_mm(own)
        return self.of.goes_in(own, has, stock) or (drilled and self.of.goes_in_drilled(own, has, stock))

    def rattles(self, s: float) -> bool:
        """Return whether it is too wide for the size that the job states."""
        return isinstance(self.of, BoreCase) and not at_most(self.of.finished_mm(self.scale(s)), self.of.most_mm)

    def turns(self, diameters_mm: Sequence[float]) -> tuple[float, ...]:
        """Return where its answers to these sizes change."""
        if self.factor is not None:
            return ()
        if isinstance(self.of, SeatTight):
            return tuple(t for diameter in diameters_mm for t in self.of.sized(diameter).turns())
        case, turns = self.of, [self.of.scale_for(just_within(self.of.most_mm)), *self.of.work_turns()]
        for stock in (one for one in case.larger if one.diameter_mm in diameters_mm):
            turns += case.turns_for(stock)
        return positive(*turns)


def stock_with(case: BoreCase, diameter_mm: float) -> Stock | None:
    """Return the stock size of a diameter as one bore needs it: the ends of a pilot are not those of a clearance."""
    return next((one for one in case.larger if one.diameter_mm == diameter_mm), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pieces:
    """All bores and seats of one piece of hardware, and the diameters that may be taken instead, nearest first."""

    members: tuple[Member, ...]
    diameters_mm: tuple[float, ...]

    def taken(self, s: float, asked: Member) -> float | None:
        """Return the diameter that is taken instead of the stated one; None where that stays.

        ``asked`` is the member that asks: one much like it stands for it among the others, and it for itself.
        """
        members = (asked, *self.members)
        if not any(member.rattles(s) for member in members):
            return None
        ways = [(one, drilled) for drilled in (False, True) for one in self.diameters_mm]
        return next((one for one, drilled in ways if all(m.takes(one, s, drilled=drilled) for m in members)), None)

    def turns(self) -> tuple[float, ...]:
        """Return every scale at which another size may be taken."""
        return tuple(turn for member in self.members for turn in member.turns(self.diameters_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class OneSize(Wrapped):
    """A rule about one bore or seat, judged with the size that the whole piece of hardware has at a scale."""

    inner: Bound
    factor: float | None
    pieces: Pieces

    def at(self, s: float) -> Finding:
        """Return the finding with the one size of the hardware."""
        own = s if self.factor is None else self.factor
        of = self.inner if isinstance(self.inner, SeatTight) else self.inner.case
        if of is None:
            return self.inner.at(own)
        return _with(self.inner, self.pieces.taken(s, Member(of=of, factor=self.factor)), own)

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself, and those of the size."""
        own = self.inner.turns() if self.factor is None else ()
        return own + self.pieces.turns()


ALONE = Pieces(members=(), diameters_mm=())
"""A nut or an insert that goes with no screw keeps its size."""


def _with(rule: Bound, diameter_mm: float | None, s: float) -> Finding:
    """Return a rule's finding with another stock size, or with none in reach."""
    if isinstance(rule, SeatTight):
        return (rule if diameter_mm is None else rule.sized(diameter_mm)).at(s)
    case = rule.case
    assert case is not None
    stock = None if diameter_mm is None else stock_with(case, diameter_mm)
    if stock is None:
        return replace(rule, case=replace(case, larger=())).at(s)
    words = f"a {case.fit} {stock.label}"
    larger = replace(
        case, need_mm=stock.need_mm, drill_mm=stock.drill_mm, larger=(), smaller=(), fit_words=words, play_words=words
    )
    if isinstance(rule, BoreEdge):
        return replace(rule, case=larger).at(s)
    if isinstance(rule, BoreLoose):
        return replace(rule, case=replace(case, larger=(stock,))).at(s)
    if not at_most(case.finished_mm(s), case.most_mm):  # the answer of ``bore.loose`` says what is drilled
        return rule.at(s)
    found = replace(rule, case=larger).at(s)
    drill = f"{found.remedy}, and " if found.verdict is Verdict.GO_WITH_WORK else ""
    return replace(
        found,
        verdict=max(found.verdict, Verdict.GO_WITH_WORK, key=lambda verdict: verdict.severity),
        why=f"{found.why}; {stock.label} goes into all its bores",
        remedy=f"{drill}take {stock.label} instead",
        work=Work(
            kind="stock",
            hardware=case.hardware,
            to_mm=stock.drill_mm if drill else None,
            takes=stock.label,
            takes_mm=stock.diameter_mm,
        ),
    )


def one_size(rules: Sequence[Rule], follows: Mapping[str, tuple[str, ...]]) -> list[Rule]:
    """Return the rules with those of a piece of hardware tied together, where another size may be taken for it.

    ``follows`` are the screws that each nut or insert goes with. One that goes with several keeps its size, and so do
    they: they need not grow alike.
    """
    bare = [_bare(rule) for rule in rules]
    groups: dict[str, dict[object, Member]] = {}
    for rule, factor in bare:
        if isinstance(rule, BoreTight):
            key = _alike(rule.case, factor)
            for name in follows.get(rule.case.hardware, (rule.case.hardware,)):
                groups.setdefault(name, {})[key] = Member(of=rule.case, factor=factor)
        elif isinstance(rule, SeatTight):
            for name in follows.get(rule.hardware, ()):
                groups.setdefault(name, {})[rule.part, rule.feature] = Member(of=rule, factor=factor)
    fixed = {screw for screws in follows.values() if len(screws) > 1 for screw in screws}
    pieces = {name: _pieces(name, tuple(found.values()), fixed=name in fixed) for name, found in groups.items()}
    tied: list[Rule] = []
    for rule, (inner, factor) in zip(rules, bare, strict=True):
        name = _hardware(inner) if isinstance(inner, Bound) else ""
        mine = pieces.get(name) if name not in follows else ALONE
        for screw in follows.get(name, ()):
            mine = pieces.get(screw, ALONE)
        tied.append(OneSize(inner=inner, factor=factor, pieces=mine) if mine and isinstance(inner, Bound) else rule)
    return tied


def _pieces(name: str, members: tuple[Member, ...], *, fixed: bool) -> Pieces:
    """Return one piece of hardware with the sizes that its own bores may take."""
    sizes: dict[float, None] = {}
    for member in members:
        if isinstance(member.of, BoreCase) and member.of.hardware == name:
            sizes |= dict.fromkeys(stock.diameter_mm for stock in member.of.larger)
    return Pieces(members=members, diameters_mm=() if fixed else tuple(sorted(sizes)))


def hardware_of(rule: Rule) -> str:
    """Return the hardware that a rule about a bore speaks of; empty for every other rule."""
    inner = getattr(rule, "inner", None)
    if inner is not None:
        return hardware_of(inner)
    case = getattr(rule, "case", None)
    return case.hardware if isinstance(case, BoreCase) else ""


def _bare(rule: Rule) -> tuple[Rule, float | None]:
    """Return a rule without the scale of its own part, and that scale."""
    return (rule.inner, rule.factor) if isinstance(rule, AtOwnScale) else (rule, None)


def _hardware(rule: Bound) -> str:
    """Return the hardware that a rule speaks of."""
    if isinstance(rule, SeatTight):
        return rule.hardware
    return rule.case.hardware if rule.case else ""


def _alike(case: BoreCase, factor: float | None) -> tuple[object, ...]:
    """Return what two bores have in common that answer alike."""
    edge = case.bore.edge_wall_mm
    lengths = (case.bore.diameter_mm, case.bore.drawn_diameter_mm, case.undersize_mm.value, case.edge_limit_mm)
    return (
        *(round(one, ALIKE_DIGITS) for one in lengths),
        None if edge is None else round(edge, ALIKE_DIGITS),
        case.bore.through,
        case.hardware,
        case.fit,
        case.work,
        factor,
    )

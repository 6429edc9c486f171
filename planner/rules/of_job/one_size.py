"""One piece of hardware has one size: all its bores, and the seats of its nuts, are judged with the same one.

A loose bore may be mended by the next stock size. That screw also goes through other bores, and its nut lies in a seat:
the larger size is taken only where all of them take it, as printed or drilled, and then all are judged with it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from planner.finding import Finding, Verdict, Work
from planner.rules.fit.bores.bore_case import BoreCase, Stock
from planner.rules.fit.bores.bore_edge import BoreEdge
from planner.rules.fit.bores.bore_loose import BoreLoose
from planner.rules.fit.bores.bore_tight import BoreTight
from planner.rules.fit.seat_tight import SeatTight
from planner.rules.of_job.taken_size import Member, Pieces, stock_with
from planner.rules.rule import AtOwnScale, Rule, Wrapped, at_most, just_within, positive

Bound = BoreTight | BoreLoose | BoreEdge | SeatTight
ALIKE_DIGITS = 4
"""Bores whose numbers agree to this many digits (0.1 micrometre) are asked once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TakesOther(Wrapped):
    """``bore.tight`` with the other stock size that all bores of the hardware take, where one of them is too wide."""

    inner: BoreTight
    stock: Stock

    def verdict(self, s: float) -> Verdict:
        """Return the verdict alone: taking another size is work, if nothing is worse."""
        return max(self.inner.verdict(s), Verdict.GO_WITH_WORK, key=lambda verdict: verdict.severity)

    def at(self, s: float) -> Finding:
        """Return the finding, with the size that is taken."""
        found, stock = self.inner.at(s), self.stock
        drill = f"{found.remedy}, and " if found.verdict is Verdict.GO_WITH_WORK else ""
        return replace(
            found,
            verdict=self.verdict(s),
            why=f"{found.why}; every bore of this hardware must take {stock.label}",
            remedy=f"{drill}take {stock.label} instead",
            work=Work(
                kind="stock",
                hardware=self.inner.case.hardware,
                to_mm=stock.drill_mm if drill else None,
                takes=stock.label,
                takes_mm=stock.diameter_mm,
            ),
        )

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the rule itself."""
        return self.inner.turns()


@dataclass(frozen=True, slots=True, kw_only=True)
class OneSize(Wrapped):
    """A rule about one bore or seat, judged with the size that the whole piece of hardware has at a scale."""

    inner: Bound
    factor: float | None
    pieces: Pieces
    _made: dict[float | None, Bound | TakesOther] = field(default_factory=dict, init=False, repr=False, compare=False)
    """The rule with each size that was asked for."""

    def at(self, s: float) -> Finding:
        """Return the finding with the one size of the hardware."""
        rule, own = self._judging(s, self._taken)
        return rule.at(own)

    def verdict(self, s: float) -> Verdict:
        """Return the verdict alone, at a turn or between two."""
        rule, own = self._judging(s, self.pieces.steps.at)
        return rule.verdict(own)

    def _taken(self, s: float) -> float | None:
        """Return the diameter that is taken instead of the stated one."""
        of = self.inner if isinstance(self.inner, SeatTight) else self.inner.case
        return None if of is None else self.pieces.taken_by(Member(of=of, factor=self.factor), s)

    def _judging(self, s: float, taken: Callable[[float], float | None]) -> tuple[Bound | TakesOther, float]:
        """Return the rule with the size that the hardware has, and the scale of its part."""
        own, inner = s if self.factor is None else self.factor, self.inner
        if not isinstance(inner, SeatTight) and inner.case is None:
            return inner, own
        diameter_mm = taken(s)
        if isinstance(inner, BoreTight) and diameter_mm is not None:
            case = inner.case  # the answer of ``bore.loose`` says what is drilled
            if not at_most(case.finished_mm(own), case.most_mm):
                return inner, own
        return self._sized(diameter_mm), own

    def _sized(self, diameter_mm: float | None) -> Bound | TakesOther:
        """Return the rule with a size; it hangs on no scale, so each is made once."""
        if diameter_mm not in self._made:
            self._made[diameter_mm] = _with(self.inner, diameter_mm)
        return self._made[diameter_mm]

    def turns(self) -> tuple[float, ...]:
        """Return the turns of the size, and those of the rule itself with every size that is taken at all."""
        steps = self.pieces.steps
        if self.factor is not None:
            return steps.turns
        own = self.inner.turns()
        if isinstance(self.inner, BoreTight):  # from where on ``bore.loose`` says what is drilled
            own += positive(self.inner.case.scale_for(just_within(self.inner.case.most_mm)))
        for diameter_mm in dict.fromkeys((*steps.at_turns, *steps.between)):
            own += self._sized(diameter_mm).turns()
        return tuple(dict.fromkeys((*own, *steps.turns)))


ALONE = Pieces(members=(), diameters_mm=())
"""A nut or an insert that goes with no screw keeps its size."""


def _with(rule: Bound, diameter_mm: float | None) -> Bound | TakesOther:
    """Return a rule with another stock size, or with none in reach."""
    if isinstance(rule, SeatTight):
        return rule if diameter_mm is None else rule.sized(diameter_mm)
    case = rule.case
    assert case is not None
    stock = None if diameter_mm is None else stock_with(case, diameter_mm)
    if stock is None:
        return replace(rule, case=replace(case, larger=()))
    if isinstance(rule, BoreLoose):
        return replace(rule, case=replace(case, larger=(stock,)))
    words = f"a {case.fit} {stock.label}"
    larger = replace(
        case, need_mm=stock.need_mm, drill_mm=stock.drill_mm, larger=(), smaller=(), fit_words=words, play_words=words
    )
    if isinstance(rule, BoreEdge):
        return replace(rule, case=larger)
    return TakesOther(inner=replace(rule, case=larger), stock=stock)


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

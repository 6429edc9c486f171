"""Other hardware of the same kind, through the whole stock: with its nut and washer, and with the drilling it needs."""

from __future__ import annotations

from collections.abc import Iterator
from collections.abc import Set as AbstractSet
from dataclasses import replace

from planner.assembly import claims_of, go_together
from planner.errors import FitwrightError
from planner.finding import Finding, Verdict
from planner.job import Edit, HandWork, Hardware, StockSize, kind_of, with_edits
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand, decided
from planner.remedy.ways.by_hand import DRILL_STEPS_MM, edits_of, minutes_for, orders, too_much, works_for
from planner.remedy.ways.other_movement import stiffer_elastic
from planner.remedy.ways.stronger_part import metal_pin

SAME_MM = 0.15
"""A stated diameter this near to a stock size means that size."""


def other_hardware(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:
    """Yield every other stock size, the nearest first: thinner where a bore is tight, thicker where it is loose."""
    if group.kind.gives == "return":
        yield from stiffer_elastic(stand)
    if group.kind.gives == "strength":
        yield from metal_pin(stand, group)
    if not group.claims:
        return
    hardware = group.claims[0].hardware
    if [h.name for h in stand.job.hardware].count(hardware.name) > 1:
        why = f"several pieces are called {hardware.name}: give each a name of its own"
        yield Candidate(kind="hardware", text="take another size", part=group.part, why_not=why)
        return
    if hardware.printed:
        why = f"it is printed as {hardware.printed}: no stock size replaces it"
        yield Candidate(kind="hardware", text=f"take another size for {hardware.name}", part=group.part, why_not=why)
        return
    thicker = group.kind.must_be == "at most"
    for stock in _in_order(stand, group, hardware, thicker=thicker):
        yield _with_stock(stand, group, hardware, stock, again)
    if group.claims[0].fit == "pilot":
        yield from _bolted(stand, group, hardware, again)


def _in_order(stand: Stand, group: Group, hardware: Hardware, *, thicker: bool) -> list[StockSize]:
    """Return the stock sizes on the side that helps, what is built first, then the nearest.

    Bearings have one bore: the shaft stays.
    """
    now = hardware.seated_mm
    wanted = [
        stock
        for stock in stand.job.tables.sizes(hardware.kind)
        if abs(_seated_mm(stock, hardware) - now) > SAME_MM
        and (_seated_mm(stock, hardware) > now) is thicker
        and (hardware.kind != "bearing" or abs(stock.diameter_mm.value - hardware.diameter_mm) <= SAME_MM)
    ]
    taken = {finding.work.takes_mm for finding in group.findings if finding.work}
    return sorted(
        wanted, key=lambda stock: (_seated_mm(stock, hardware) not in taken, abs(_seated_mm(stock, hardware) - now))
    )


def _seated_mm(stock: StockSize, hardware: Hardware) -> float:
    """Return the diameter of what sits in the bore: the outside of a bearing, else the shank."""
    return stock.outside_mm.value if hardware.kind == "bearing" and stock.outside_mm else stock.diameter_mm.value


def _with_stock(stand: Stand, group: Group, hardware: Hardware, stock: StockSize, again: Again) -> Candidate:
    """Return the candidate of one stock size, with the drilling that its bores need then."""
    edits = _exchange(stand, hardware, stock)
    text = f"take {stock.label} {hardware.kind} for {hardware.name} instead of {_size(stand, hardware)}"
    text += "".join(f", with its {edit.name}" for edit in edits[1:])
    return _with_drilling(stand, group, hardware, edits, text, again)


def _bolted(stand: Stand, group: Group, hardware: Hardware, again: Again) -> Iterator[Candidate]:
    """Yield machine screws that run through to a nut, thickest first, where a screw was to cut its own thread."""
    claims = [c for c in claims_of(stand.job, stand.surveys).claims if c.hardware.name == hardware.name]
    text = f"take a machine screw with a nut for {hardware.name}"
    if not all(claim.bore.through for claim in claims):
        why = "its bore is blind, so a nut cannot be reached"
        yield Candidate(kind="hardware", text=text, part=group.part, why_not=why)
        return
    widest = max(claim.bore.drawn_diameter_mm for claim in claims) * stand.percent / 100.0
    put: dict[str, str | float] = {"kind": "machine-screw", "fit": "sliding", "nut": "plain"}
    if hardware.bore_mm is None:
        put["bore_mm"] = round(sum(claim.bore.named_mm for claim in claims) / len(claims), 3)
    for stock in reversed(stand.job.tables.machine_screws):
        size = stock.diameter_mm.value
        if size < widest and size <= hardware.diameter_mm + SAME_MM:
            edit = Edit(table="hardware", name=hardware.name, put={**put, "diameter_mm": size}, without=("pilot_mm",))
            told = (
                f"take {stock.label} machine-screw with a nut for {hardware.name} instead of {_size(stand, hardware)}"
            )
            yield _with_drilling(stand, group, hardware, (edit,), told, again)


def _with_drilling(
    stand: Stand, group: Group, hardware: Hardware, edits: tuple[Edit, ...], text: str, again: Again
) -> Candidate:
    """Return the candidate of edits of a piece of hardware and what goes with it, with the drilling they need then."""
    pieces = [one for one in stand.job.hardware if one.name in {edit.name for edit in edits}]
    parts = tuple(dict.fromkeys(part for one in pieces for part in one.joins))
    price = hardware.price_each or stand.job.tables.prices.get(hardware.kind)
    candidate = Candidate(
        kind="hardware",
        text=text,
        part="" if len(parts) > 1 else group.part,
        does=edits,
        costs=Costs(minutes_min=0.0, money=None if price is None else price * hardware.count),
    )
    try:
        trial = again(with_edits(stand.job, edits), posed=False)  # hardware lays no part otherwise; bores are asked
    except FitwrightError as problem:
        return replace(candidate, why_not=problem.wrong)
    works, why_not = list[HandWork](), ""
    for part in parts:
        findings, features = _tight(trial, part, {one.name for one in pieces})
        mine = works_for(trial, part, findings, features, "drill", DRILL_STEPS_MM[0])
        why_not = why_not or too_much(trial, mine, findings, features)
        works += mine
    if not works:
        return candidate
    return replace(
        candidate,
        why_not=why_not,
        text=f"{orders(works)}, and {text}",
        does=(*edits, *edits_of(works)),
        costs=replace(candidate.costs, minutes_min=minutes_for(stand.job, works)),
    )


def _tight(trial: Stand, part: str, names: AbstractSet[str]) -> tuple[list[Finding], list[str]]:
    """Return the bores of a part that must be drilled for some hardware, and what is found about each."""
    claims = claims_of(trial.job, trial.surveys).claims
    mine = {claim.bore.id for claim in claims if claim.part == part and claim.hardware.name in names}
    findings, features = [], []
    for key in trial.answers:
        rule, where, feature = key
        kind, finding = kind_of(rule), trial.worst_of(key)
        asked = kind.bench == "drill" and kind.must_be == "at least"
        if where != part or feature not in mine or not asked or finding is None:
            continue
        if finding.verdict is not Verdict.GO and not decided(trial.job, key, finding):
            findings.append(finding)
            features.append(feature)
    return findings, features


def _exchange(stand: Stand, hardware: Hardware, stock: StockSize) -> tuple[Edit, ...]:
    """Return the edits that take another size of a piece, and of what shares its thread: nuts, inserts, screws."""
    put: dict[str, str | float] = {"diameter_mm": stock.diameter_mm.value}
    if hardware.kind == "bearing":
        put = {"size_mm": _seated_mm(stock, hardware)}
    edits = [Edit(table="hardware", name=hardware.name, put=put | _finds(stand, hardware))]
    threaded = hardware.kind in ("machine-screw", "insert")
    for other in go_together(stand.job, [hardware.name]) if threaded else ():
        if other.name != hardware.name:
            size = {"diameter_mm": stock.diameter_mm.value} | _finds(stand, other)
            edits.append(Edit(table="hardware", name=other.name, put=size, without=("size_mm",)))
    return tuple(edits)


def _finds(stand: Stand, hardware: Hardware) -> dict[str, str | float]:
    """Return the drawn diameter of the bores of a piece where it is not stated: another size would find others."""
    claims = claims_of(stand.job, stand.surveys).claims
    bores = {claim.bore.named_mm for claim in claims if claim.hardware.name == hardware.name}
    return {} if hardware.bore_mm is not None or not bores else {"bore_mm": round(sum(bores) / len(bores), 3)}


def _size(stand: Stand, hardware: Hardware) -> str:
    """Return what a piece of hardware is sold as."""
    sizes = stand.job.tables.sizes(hardware.kind)
    mine = [one for one in sizes if abs(_seated_mm(one, hardware) - hardware.seated_mm) <= SAME_MM]
    same = [one for one in mine if abs(one.diameter_mm.value - hardware.diameter_mm) <= SAME_MM]
    return same[0].label if same else f"{hardware.seated_mm:g} mm"

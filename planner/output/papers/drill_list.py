"""The drill and ream list: every bore, channel or slot that needs work, with the wall that stays."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.finding import Finding, Verdict
from planner.job import kind_of
from planner.output.bench.translated import findings_stay, own_head, unsigned
from planner.output.paper_files.sheet import BOX, Block, Card, Heading, Lines, Rows, Sheet, Ticks, Words
from planner.output.papers.where_to_drill import where_blocks
from planner.output.tongue import ENGLISH, ENGLISH_BELOW, Tongue
from planner.output.words.paper_words import with_count
from planner.plan import Plan
from planner.supplies import BenchWork

SAME_PLACE_MM = 0.01
IN = " in "
"""Between a piece and its bore in the name of a feature."""


def _care(t: Tongue) -> tuple[str, ...]:
    """Return the care that drilling asks for; common practice, no source."""
    return (
        t.say("Let the part cool. Clamp it in soft jaws; never hold it by hand."),
        t.say(
            "Turn the drill or reamer by hand or at low speed. Enlarge the bore by {step} in diameter at a time. "
            "Clear the chips: heat melts the bore.",
            step=t.amount("0.2 mm"),
        ),
        t.say("Wear eye protection. No gloves, loose sleeves or loose hair near a turning drill."),
        t.say(
            "Follow the drawn axis: a drill that wanders cuts into the wall. Measure the wall that remains, then tick."
        ),
        t.say("If a crack or a white line shows beside the bore, stop and print the part again."),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """One piece of work on every copy of a part; ``left_mm`` None where the wall left is not known."""

    part: str
    count: int
    feature: str
    what: str
    left_mm: float | None
    limit_mm: float | None
    kind: str = ""
    """Drill, ream or bush; empty where the work is not known as data."""
    to_mm: float | None = None
    """Diameter after it; of the hole that takes a bush, not of the bush's own bore."""
    bored_mm: float | None = None
    """The bore in a bush."""


def work_of(plan: Plan) -> tuple[Work, ...]:
    """Return all work on openings that the check asks for, with the wall left beside a bore after it."""
    edges = {(f.part, f.feature): f for f in plan.findings if kind_of(f.rule).gives == "wall left"}
    found = []
    for one in plan.built.work:
        edge: Finding | None = edges.get((one.part, one.feature))
        left = edge.measured if edge else _beside_channel(plan, one)
        found.append(
            Work(
                part=one.part,
                count=one.count,
                feature=one.feature,
                what=one.what,
                left_mm=left,
                limit_mm=edge.limit if edge else None,
                kind=one.work.kind if one.work else "",
                to_mm=one.work.to_mm if one.work else None,
                bored_mm=one.work.bored_mm if one.work else None,
            )
        )
    return tuple(found)


def _beside_channel(plan: Plan, one: BenchWork) -> float | None:
    """Return the wall left beside a reamed channel that the survey knows as a bore: (w + d/2) s - r/2, r the ream.

    w is the wall as drawn and d the diameter as drawn; None where the channel is no bore, or scaled unevenly.
    """
    part = next((p for p in plan.parts if p.part.name == one.part), None)
    ream = one.work.to_mm if one.work and one.work.kind == "ream" else None
    if part is None or one.at_mm is None or ream is None:
        return None
    if len(set(part.scale_percent)) > 1:
        return None
    for bore in part.survey.bores:
        if bore.edge_wall_mm is not None and math.dist(bore.centre_mm, one.at_mm) < SAME_PLACE_MM:
            drawn = bore.edge_wall_mm + bore.drawn_diameter_mm / 2
            return drawn * part.scale_percent[0] / 100.0 - ream / 2
    return None


def drill_list(plan: Plan, tongue: Tongue = ENGLISH) -> Sheet:
    """Return the list, with the care that drilling asks for; what the checks ask for stands in English, too."""
    work, say = work_of(plan), tongue.say
    blocks: list[Block] = [*unsigned(tongue)]
    if work:
        alone = say("Drill or ream nothing else.")
        blocks += [
            *findings_stay(tongue),
            Words(text=f"{tongue.many('{n} place to work on.', '{n} places to work on.', len(work))} {alone}"),
            _table(plan, work, tongue),
            *_least(work, tongue),
            *where_blocks(plan, [_marked(one, tongue) for one in work], say("Where these are"), tongue),
            Heading(text=say("Care")),
            Ticks(steps=tongue.all_beside(_care)),
            Words(text=say("Source: common practice, no source."), tone="small"),
        ]
    else:
        blocks += [
            Words(text=say("Nothing needs drilling, reaming or bushing at this size."), tone="strong"),
            Words(text=say("Try each screw and pin anyway. Where one binds, measure the part first.")),
        ]
    unsure = _unsure(plan, tongue)
    if unsure is not None:
        blocks += [Heading(text=say("May still need work")), Words(text=_untold(tongue)), unsure]
        tries = [_tried(plan, finding, tongue) for finding in _doubted(plan)]
        blocks += where_blocks(plan, tries, say("Which bores these are"), tongue)
    blocks.append(Lines(labels=(say("done by (role)"), say("date"))))
    title = say("Drill and ream")
    card = Card(title=title, blocks=tuple(blocks))
    return Sheet(name="drill", title=title, cards=(card,), head=own_head(plan, tongue))


def _least(work: tuple[Work, ...], tongue: Tongue) -> list[Block]:
    """Say where the least wall comes from, where one is stated."""
    if not any(one.limit_mm is not None for one in work):
        return []
    least = tongue.say(
        "Least wall: three printed lines beside a bore in a part that carries load or in a pin, two in any other. "
        "This is the plan's own rule ({rule}).",
        rule=tongue.kept("bore.edge"),
    )
    return [Words(text=least, tone="small")]


def _to_size(one: Work, tongue: Tongue) -> str:
    """Return the work and the diameter after it; empty where they are not known as data."""
    if one.to_mm is None:
        return ""
    say, size = tongue.say, tongue.amount(f"Ø {one.to_mm:.2f} mm")
    bush = say("drill to {size} for the bush", size=size)
    if one.bored_mm is not None:
        bore = tongue.amount(f"Ø {one.bored_mm:.2f} mm")
        bush = say("drill to {size} for the bush; bore in the bush: {bore}", size=size, bore=bore)
    return {
        "drill": say("drill to {size}", size=size),
        "ream": say("ream to {size}", size=size),
        "bush": bush,
    }.get(one.kind, "")


def _place(plan: Plan, feature: str, tongue: Tongue) -> str:
    """Return where work is done, "arm screw in b2 (3.00 mm)"; what is not said in this way stays English."""
    thing, _, bore = feature.partition(IN)
    if tongue.code == "en":
        return feature
    job = plan.job
    if thing not in [one.name for some in (job.hardware, job.cords, job.straps) for one in some]:
        return tongue.in_english(feature)
    name = tongue.kept(thing)
    return tongue.say("{piece} in {bore}", piece=name, bore=tongue.amount(bore)) if bore else name


def _marked(one: Work, tongue: Tongue) -> tuple[str, str, str]:
    """Return a piece of work as its part, its feature, and what to write beside it on the part's sketch."""
    return one.part, one.feature, _to_size(one, tongue) or tongue.say("see the list")


def _must_be(finding: Finding, size: str, tongue: Tongue) -> str:
    """Return the limit of a bore in words."""
    say = tongue.say
    return (
        say("at least {size}", size=size)
        if kind_of(finding.rule).must_be == "at least"
        else say("at most {size}", size=size)
    )


def _tried(plan: Plan, finding: Finding, tongue: Tongue) -> tuple[str, str, str]:
    """Return a bore to try first as its part, its feature, and what to write beside it."""
    most = _must_be(finding, tongue.amount(f"Ø {finding.limit or 0.0:.2f} mm"), tongue)
    thing = _place(plan, finding.feature.split(IN)[0], tongue).removeprefix(ENGLISH_BELOW)
    return finding.part, finding.feature, tongue.say("{piece}, {size}", piece=thing, size=most)


def _doubted(plan: Plan) -> list[Finding]:
    """Return the findings that pass, and rest on how much smaller bores print."""
    return [
        finding
        for finding in plan.findings
        if kind_of(finding.rule).must_be
        and finding.verdict is Verdict.GO
        and finding.question
        and finding.measured is not None
        and finding.limit is not None
    ]


def _untold(tongue: Tongue) -> str:
    """Say why bores are to be tried."""
    return tongue.say(
        "Nobody has measured how much smaller bores print on this printer, and that decides here. Try these first."
    )


def _unsure(plan: Plan, tongue: Tongue) -> Rows | None:
    """Return the bores and channels that may need work after all, those of one part for one thing in a row.

    None without any; what is on the list of work already is not told twice.
    """
    groups: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in _doubted(plan):
        groups.setdefault((finding.part, finding.feature.split(IN)[0], finding.rule), []).append(finding)
    if not groups:
        return None
    rows, say, amount = [], tongue.say, tongue.amount
    for (part, thing, _), found in groups.items():
        low, high = (round(f([one.measured or 0.0 for one in found]), 2) for f in (min, max))
        prints = amount(f"{low:.2f} mm")
        if low != high:
            prints = say("{low} to {high}", low=tongue.number(f"{low:.2f}"), high=amount(f"{high:.2f} mm"))
        rows.append(
            (
                tongue.kept(part),
                _place(plan, thing, tongue),
                str(len(found)),
                prints,
                _must_be(found[0], amount(f"{found[0].limit or 0.0:.2f} mm"), tongue),
                "",
                BOX,
            )
        )
    return Rows(
        head=(
            say("part"),
            say("for"),
            say("bores"),
            say("expected print"),
            say("must be"),
            say("reading"),
            say("good"),
        ),
        rows=tuple(rows),
        shares=(1.7, 2.0, 0.9, 2.2, 1.8, 1.2, 0.7),
        right=(2,),
    )


def _table(plan: Plan, work: tuple[Work, ...], tongue: Tongue) -> Rows:
    """Return the work as a table to fill in."""
    say, amount = tongue.say, tongue.amount
    rows = tuple(
        (
            tongue.kept(with_count(one.part, one.count)) if one.part else say("job"),
            _place(plan, one.feature, tongue),
            one.what if tongue.code == "en" else f"{_to_size(one, tongue)}{tongue.in_english(one.what)}",
            say("not known") if one.left_mm is None else amount(f"{one.left_mm:.2f} mm"),
            "" if one.limit_mm is None else amount(f"{one.limit_mm:.2f} mm"),
            "",
            BOX,
        )
        for one in work
    )
    return Rows(
        head=(
            say("part"),
            say("where"),
            say("work"),
            say("wall remaining"),
            say("least"),
            say("measured"),
            say("done"),
        ),
        rows=rows,
        shares=(1.5, 2.2, 2.8, 1.2, 1.1, 1.3, 0.8),
        right=(3, 4),
    )

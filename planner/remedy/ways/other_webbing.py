"""Narrower webbing, through the whole stock: every strap of that width through the same opening."""

from __future__ import annotations

from collections.abc import Iterator

from planner.job import Edit
from planner.remedy.candidate import Candidate
from planner.remedy.group import Group
from planner.remedy.remedy import Costs
from planner.remedy.rule_answers import Again, Stand

MM_A_METRE = 1000.0


def other_webbing(stand: Stand, group: Group, again: Again) -> Iterator[Candidate]:  # noqa: ARG001  needs no trial
    """Yield each narrower webbing in stock, the widest first."""
    named = [strap for strap in stand.job.straps if strap.part == group.part and f"slot {strap.name}" in group.features]
    if not named:
        return
    strap = named[0]
    if [each.name for each in stand.job.straps].count(strap.name) > 1:
        why = f"several straps are called {strap.name}: give each a name of its own"
        yield Candidate(kind="webbing", text="take narrower webbing", part=group.part, why_not=why)
        return
    metre = stand.job.tables.prices.get("webbing")
    for width in stand.job.tables.webbing_mm:
        if width < strap.webbing_mm:
            price = None if metre is None or strap.around_mm is None else metre * strap.around_mm / MM_A_METRE
            yield Candidate(
                kind="webbing",
                text=f"take {width:g} mm webbing for {strap.name} instead of {strap.webbing_mm:g} mm",
                part=group.part,
                does=(Edit(table="strap", name=strap.name, put={"webbing_mm": width}),),
                costs=Costs(minutes_min=0.0, money=None if price is None else price * strap.count),
            )

"""What the device is used for, and the rules that a person overrides."""

from __future__ import annotations

from planner.job.file.table import Table
from planner.job.job import Override, Use
from planner.job.profiles.environments import Environment
from planner.job.profiles.profile_file import read_environments
from planner.job.profiles.rule_kind import rule_kinds

LOAD_LEAST_N, LOAD_MOST_N = 0.01, 1e5
"""The weight of a gram: less on a part that carries is a slip, and every part would pass; and that of ten tonnes."""
LOAD_LEAST_H = 1.0 / 3600.0
"""A second: what holds for less is no load that lasts, and creep would be left out by a slip."""
WOBBLE_MOST_MM = 200.0
"""More play at the tip than a hand is long is a slip, and every device would pass."""


def read_use(table: Table) -> Use:
    """Read ``[use]``; everything may be left out."""
    use = table.table_or_empty("use")
    found = Use(
        recipient_age_years=use.number_or_none("recipient_age_years", high=130.0),
        mouthing=use.flag("mouthing", default=False),
        kept=_kept(use),
        hottest_c=use.number_or_none("hottest_c", low=-50.0, high=300.0),
        skin=use.flag("skin", default=False),
        load_n=use.number_or_none("load_n", low=LOAD_LEAST_N, high=LOAD_MOST_N),
        load_h=use.number_or_none("load_h", low=LOAD_LEAST_H, high=1e6),
        loads_n=use.number_or_none("loads_n", low=1.0, high=1e9),
        grip_n=use.number_or_none("grip_n", high=1e5),
        hang_n=use.number_or_none("hang_n", high=LOAD_MOST_N),
        pull_n=use.number_or_none("pull_n", low=LOAD_LEAST_N, high=LOAD_MOST_N),
        wobble_mm=use.number_or_none("wobble_mm", high=WOBBLE_MOST_MM, above=True),
        mass_limit_g=use.number_or_none("mass_limit_g", high=1e6, above=True),
    )
    use.done()
    if found.carried_n is None and found.pull_n is None:
        for key, value in (("load_h", found.load_h), ("loads_n", found.loads_n)):
            if value is not None:
                use.refuse(key, "it speaks of a load, and none is stated", "state load_n or grip_n beside it")
    return found


def _kept(table: Table) -> tuple[Environment, ...]:
    """Return the places where the device is kept."""
    places = read_environments()
    names = table.texts("kept")
    for name in names:
        if name not in places:
            table.refuse("kept", f"no place is called '{name}'", "state hottest_c, or one of: " + ", ".join(places))
    return tuple(places[name] for name in names)


def read_overrides(table: Table) -> tuple[Override, ...]:
    """Read every ``[[override]]``; role and reason must say something."""
    overrides = []
    for each in table.tables("override"):
        overrides.append(
            Override(
                rule=each.word("rule", tuple(rule_kinds())),
                role=each.text("role"),
                reason=each.text("reason"),
                part=each.text("part", "", empty=True),
            )
        )
        each.done()
    return tuple(overrides)

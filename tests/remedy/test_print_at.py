"""Every sentence that says to print at a size is true of the whole device: read, and judged at that size."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict, replace

from planner.finding import Verdict, worst
from planner.job import Edit, with_changes, with_edits
from planner.plan import Plan, prepare, what_widens
from planner.plan.changed_job import stands
from planner.remedy import Again, Stand
from planner.remedy.group import groups_of
from planner.remedy.ways.other_size import other_size
from planner.size import nearest_percent, window
from tests.conftest import MakeJob
from tests.rebore.bored_parts import published
from tests.remedy.devices import PART, TODAY

PRINT_AT = re.compile(r"[Pp]rint(?:ed)?(?: it)? at ([\d.]+) ?%([^.]*)")
OPEN = "what is open stays open"
GROUPS_MOST = 5
VARIANTS: dict[str, tuple[float, tuple[Edit, ...]]] = {
    "for a small child": (62.0, ()),
    "for an adult": (175.0, ()),
    "with wide lines": (80.0, (Edit(table="settings", put={"line_width_mm": 0.6}),)),
    "with a thick post": (100.0, (Edit(table="hardware", name="pivot post", put={"diameter_mm": 8.0}),)),
    "on a small printer": (140.0, (Edit(table="job", put={"printer": "small-180"}),)),
}
MESHES = {"brace.stl": 60.0, "plate_side.stl": 70.0, "stepped_plate.stl": 45.0}
"""Published meshes, each at a size at which something does not work."""


def sentences(stand: Stand, again: Again) -> Iterator[str]:
    """Yield what every rule says at a job's size, the nearest size that works, and the sizes that are tried as remedies."""
    for found in stand.answers.values():
        yield from (str(value) for finding in found for value in asdict(finding).values())
    nearest = nearest_percent(window(stand.rules, stand.percent).passes, stand.percent)
    if nearest is not None:
        yield f"print at {nearest!r} %"
    for group in groups_of(stand)[:GROUPS_MOST]:
        yield from (one.text for one in other_size(stand, group, again) if not one.why_not)


def faults(stand: Stand, again: Again) -> tuple[list[str], int]:
    """Return the sentences that say to print at a size where the device does not work, and how many were read."""
    found, read_n = [], 0
    for sentence in dict.fromkeys(sentences(stand, again)):
        for percent, rest in PRINT_AT.findall(sentence):
            read_n += 1
            there = worst(rule.at(float(percent) / 100.0) for rule in stand.rules)
            left = Verdict.NO_GO if OPEN in rest else Verdict.HOLD
            if there.severity >= left.severity:
                found.append(sentence)
    return found, read_n


def test_the_sample_device_names_no_size_at_which_it_fails(heron_plan: Plan) -> None:
    """The Heron too small, too large, with other lines, hardware and bed; what would widen it names none at all."""
    ready = heron_plan.stage.sized.ready
    _, again = stands(ready)
    read_n = 0
    for percent, edits in VARIANTS.values():
        found, n = faults(again(with_changes(with_edits(ready.job, edits), percent=percent), posed=False), again)
        read_n += n
        assert found == []
    assert read_n > 0
    assert not [step.told for step in heron_plan.widenings if PRINT_AT.search(step.told)]


def test_published_meshes_name_no_size_at_which_they_fail(make_job: MakeJob) -> None:
    """As parts with load, each at a size that is too small for it."""
    text, read_n = PART + "ignore_bores = true\n", 0
    for file, percent in MESHES.items():
        job = make_job(text, a=replace(published(file), name="a"))
        ready = prepare(with_changes(job, percent=percent), TODAY)
        found, n = faults(*stands(ready))
        read_n += n
        assert found == []
        assert not [step.told for step in what_widens(ready) if PRINT_AT.search(step.told)]
    assert read_n > 0


def test_a_size_that_only_one_rule_allows_is_caught() -> None:
    """What a no-go said once: 131.6 % from another size, where a part no longer lies on the bed."""
    assert PRINT_AT.findall("drill it; or print at 131.6 % or more, or put the bore back") == [
        ("131.6", " or more, or put the bore back")
    ]

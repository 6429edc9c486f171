"""Every sentence that says to print at a size is true of the whole device: read, and judged at that size."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import asdict, replace
from pathlib import Path

import pytest

from planner.finding import Verdict
from planner.job import Edit, Job, read_job, with_changes, with_edits
from planner.plan import Prepared, prepare, proved_remedies, what_widens
from planner.rules import Checked, check
from planner.size import nearest_percent, window
from tests.conftest import MakeJob
from tests.rebore.bored_parts import published
from tests.remedy.devices import TODAY

PRINT_AT = re.compile(r"[Pp]rint(?:ed)?(?: it)? at ([\d.]+) ?%([^.]*)")
OPEN = "what is open stays open"
VARIANTS: dict[str, tuple[float | None, tuple[Edit, ...]]] = {
    "as it is": (None, ()),
    "for a small child": (62.0, ()),
    "for an adult": (175.0, ()),
    "with wide lines": (80.0, (Edit(table="settings", put={"line_width_mm": 0.6}),)),
    "with a thick post": (100.0, (Edit(table="hardware", name="pivot post", put={"diameter_mm": 8.0}),)),
    "on a small printer": (140.0, (Edit(table="job", put={"printer": "small-180"}),)),
}
MESHES = {"brace.stl": 60.0, "plate_side.stl": 70.0, "stepped_plate.stl": 45.0}
"""Published meshes, each at a size at which something does not work."""


def sentences(ready: Prepared) -> Iterator[str]:
    """Yield everything that check and window say of a job, remedies and what was refused as well."""
    percent, remedies = ready.sizing.percent, proved_remedies(ready)
    checked = check(ready.bound, percent)
    reach = window(ready.bound.every, percent)
    for finding in remedies.shown(checked.findings):
        yield from (str(value) for value in asdict(finding).values())
    for finding in checked.findings:
        yield finding.remedy
    for remedy in remedies.found:
        yield remedy.text
    for step in what_widens(ready):
        yield step.told
    nearest = nearest_percent(reach.passes, percent)
    if nearest is not None:
        yield f"print at {nearest!r} %"


def faults(ready: Prepared) -> list[str]:
    """Return the sentences that say to print at a size where the device does not work."""
    found = []
    for sentence in dict.fromkeys(sentences(ready)):
        for percent, rest in PRINT_AT.findall(sentence):
            there: Checked = check(ready.bound, float(percent))
            left = Verdict.NO_GO if OPEN in rest else Verdict.HOLD
            if there.verdict.severity >= left.severity:
                found.append(sentence)
    return found


def _changed(job: Job, percent: float | None, edits: tuple[Edit, ...]) -> Job:
    """Return a job with edits made, at a size."""
    changed = with_edits(job, edits) if edits else job
    return changed if percent is None else with_changes(changed, percent=percent)


@pytest.mark.parametrize("variant", VARIANTS)
def test_the_sample_device_names_no_size_at_which_it_fails(heron: Path, variant: str) -> None:
    """The Heron as drawn, too small, too large, with other lines, hardware and bed."""
    assert faults(prepare(_changed(read_job(heron), *VARIANTS[variant]), TODAY)) == []


@pytest.mark.parametrize("file", MESHES)
def test_published_meshes_name_no_size_at_which_they_fail(make_job: MakeJob, file: str) -> None:
    """As parts with load, at a size that is too small for them."""
    text = (
        '[job]\nname = "x"\nmaterial = "petg"\nmesh_unit = "mm"\n[[part]]\nname = "a"\nmesh = "a.stl"\nduty = "load"\n'
    )
    job = make_job(text + "ignore_bores = true\n", a=replace(published(file), name="a"))

    assert faults(prepare(with_changes(job, percent=MESHES[file]), TODAY)) == []


def test_a_size_that_only_one_rule_allows_is_caught() -> None:
    """What a no-go said once: 131.6 % from another size, where a part no longer lies on the bed."""
    assert PRINT_AT.findall("drill it; or print at 131.6 % or more, or put the bore back") == [
        ("131.6", " or more, or put the bore back")
    ]

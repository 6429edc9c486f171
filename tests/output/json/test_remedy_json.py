"""Remedies as JSON: plain types, and edits that make the same job."""

from __future__ import annotations

import json
from typing import Any

from planner.job import Edit, with_edits
from planner.output import remedies_json
from planner.plan import proved_remedies
from tests.conftest import MakeJob
from tests.remedy.devices import pinned


def test_the_edits_of_the_json_make_the_job_that_was_proved(make_job: MakeJob) -> None:
    """What a program reads from ``does`` is enough to do the same."""
    ready = pinned(make_job, 5.0, 5.0)
    remedies = proved_remedies(ready)
    made: Any = json.loads(json.dumps(remedies_json(remedies), allow_nan=False))
    (told,) = made
    edits = [Edit(**edit) for edit in told["does"]["edits"]]

    assert (told["n"], told["kind"], told["leaves_verdict"]) == (1, "drill", "go-with-work")
    assert told["costs"] == {"minutes": 3.0, "money": 0.0}
    assert told["settles"] == [{"rule": "bore.tight", "part": "a", "feature": "pin in b1 (5.00 mm)"}]
    assert with_edits(ready.job, edits).works == with_edits(ready.job, remedies.found[0].does).works

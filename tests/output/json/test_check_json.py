"""``check --json``: the keys that other programs hold on to."""

from __future__ import annotations

import json
from typing import Any

from planner.output import check_json
from planner.plan import proved_remedies
from planner.rules import check
from planner.size import window
from tests.conftest import MakeJob
from tests.remedy.devices import pinned


def test_the_result_has_its_keys_and_each_remedy_names_findings_of_it(make_job: MakeJob) -> None:
    """A tight bore: work, one remedy, and the finding that it settles with the remedy's own text."""
    ready = pinned(make_job, 5.0, 5.0)
    remedies, checked = proved_remedies(ready), check(ready.bound, 100.0)
    shown = checked.with_findings(remedies.shown(checked.findings))
    made = check_json(shown, window(ready.bound.rules, 100.0), ready.sizing.measures, remedies)
    told: Any = json.loads(json.dumps(made, allow_nan=False))
    (remedy,) = told["remedies"]
    finding = next(f for f in told["findings"] if f["rule"] == remedy["settles"][0]["rule"])

    assert {"verdict", "headline", "questions", "findings", "remedies", "measures"} <= set(told)
    assert told["verdict"] == "go-with-work"
    assert finding["remedy"] == remedy["text"] == "drill b1 of a to 5.2 mm"

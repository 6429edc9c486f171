"""Folders of published meshes: no guess says no, few questions, and what comes of the answers is what a hand found."""

from __future__ import annotations

import shutil
import tomllib
from collections import Counter
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from planner.finding import Evidence, Verdict
from planner.job import Edit, job_of_folder, read_printer, with_edits
from planner.plan import Prepared, prepare
from planner.rules import Checked, check
from tests.shapes import DATA

TODAY = date(2026, 12, 1)
TABLE = tomllib.loads((DATA / "answers" / "published.toml").read_text(encoding="utf-8"))["device"]
CASES = [pytest.param(device, case, id=case["name"]) for device in TABLE for case in device["case"]]
DRILLED = ("bore.tight",)


@pytest.fixture(name="devices", scope="module")
def _devices(tmp_path_factory: pytest.TempPathFactory, kept_in_run: Path) -> dict[str, Prepared]:
    """Prepare every folder once, its surveys kept between them and for what is answered."""
    found = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FITWRIGHT_CACHE", str(kept_in_run))
        for device in TABLE:
            folder = tmp_path_factory.mktemp(device["name"])
            for name, mesh in device["parts"].items():
                shutil.copy(DATA / "bores" / f"{mesh}.stl", folder / f"{name}.stl")
            job = job_of_folder(folder, printer=read_printer("bench-220", Path()), mesh_unit=None)
            found[device["name"]] = prepare(job, TODAY)
    return found


def _checked(ready: Prepared) -> Checked:
    return check(ready.bound, ready.sizing.percent)


def _answered(ready: Prepared, case: dict[str, Any]) -> Checked:
    """Play the answers of a case through the job file's own edits, and check what comes of it.

    A mesh whose unit is answered is measured again, and its bores are asked about then.
    """
    while ready.asked:
        edits: list[Edit] = []
        for one in ready.asked:
            doubt = one.doubt
            wanted = case["answers"].get(doubt.id, case["duty"] if doubt.id.startswith("duty-") else case["others"])
            known = {option.name for option in doubt.options}
            usual = "as-guessed" if "as-guessed" in known else doubt.default
            edits += doubt.option(wanted if wanted in known else usual).edits
        ready = prepare(with_edits(ready.job, edits), TODAY)
    return _checked(ready)


@pytest.mark.parametrize("device", TABLE, ids=[device["name"] for device in TABLE])
def test_no_guess_says_no_and_few_questions_are_asked(devices: dict[str, Prepared], device: dict[str, Any]) -> None:
    """Of a bare folder only what is too thin for any duty is no-go; what hangs on a guess has its question, of eight."""
    checked = _checked(devices[device["name"]])

    said_no = [finding for finding in checked.findings if finding.verdict is Verdict.NO_GO]
    assert sorted({finding.part for finding in said_no}) == device["ends"]
    assert all(finding.evidence is not Evidence.GUESSED for finding in said_no)
    assert len(checked.questions) <= 8
    asked = {question.id: question for question in checked.questions}
    for finding in checked.findings:
        if finding.evidence is Evidence.GUESSED:
            assert finding.verdict in (Verdict.HOLD, Verdict.GO_WITH_WORK)
            assert finding.remedy.startswith("if "), finding
            assert finding.question_id in asked
    for name, question in asked.items():
        settles = [finding for finding in checked.findings if finding.question_id == name]
        assert question.settles_n == len(settles) or not question.options


@pytest.mark.parametrize(("device", "case"), CASES)
def test_answers_give_what_was_worked_out_by_hand(
    devices: dict[str, Prepared], device: dict[str, Any], case: dict[str, Any]
) -> None:
    """Verdict, bores to drill with their sizes, and parts too thin are those of the table; no guess is left."""
    checked = _answered(devices[device["name"]], case)

    drilled = Counter(
        f"{finding.part} {finding.limit:.1f}"
        for finding in checked.findings
        if finding.rule in DRILLED and finding.verdict is Verdict.GO_WITH_WORK
    )
    thin = {f.part for f in checked.findings if f.verdict is Verdict.NO_GO}
    assert [f for f in checked.findings if f.evidence is Evidence.GUESSED] == []
    assert drilled == case["work"]
    assert sorted(thin) == case["too_thin"]
    assert checked.verdict.value == case["verdict"]

"""A plan as a folder: JSON, page, plates and parts at size, each file whole or not at all."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from contextlib import AbstractContextManager
from pathlib import Path

from planner.calibrate import coupon, write_coupon
from planner.job import printers_of
from planner.mesh import write_stl
from planner.output.bench.bench_folder import Written, write_papers
from planner.output.json.plan_json import plan_json
from planner.output.page.bench_links import papers_beside
from planner.output.page.page import page
from planner.output.paper_files.page_size import PaperName
from planner.packing import MANIFEST, manifest, untouched_files, write_plates
from planner.plan import CouponFirst, Plan
from planner.whole_file import write_text
from planner.whole_folder import files_in, whole_folder

REPORT = "report.html"


def write_whole_plan(
    plan: Plan,
    folder: Path,
    paper: PaperName = "a4",
    ids: Mapping[int, str] | None = None,
    into: Callable[[Path, Callable[[Path], frozenset[str]]], AbstractContextManager[Path]] = whole_folder,
) -> tuple[Path, Written]:
    """Write a plan and its papers in place of an earlier plan; return the report's path, and which papers were written.

    What people have filled in or laid into the folder stays; nothing of the earlier plan does.
    ``ids`` are those that plates have in a ledger, by number; ``into`` writes the folder as ``whole_folder`` does.
    """
    with into(folder, untouched_files) as twin:
        people = files_in(twin)
        papers = write_papers(plan, twin, paper, ids)
        write_plan(plan, twin, people)
    return folder / REPORT, papers.moved(twin, folder)


def write_plan(plan: Plan, folder: Path, people: frozenset[str] = frozenset()) -> Path:
    """Write everything about a plan into a folder and return the report's path.

    The report names the papers that lie in ``folder/bench`` by then: write them first. The manifest lists every file
    but those of ``people`` that still hold what they held.
    """
    before = {name: _state(folder / name) for name in people}
    (folder / "parts").mkdir(parents=True, exist_ok=True)
    for part in plan.parts:
        write_stl(folder / part.file, [part.sized])
    beds = {printer.name: printer.bed for printer in printers_of(plan.job)}
    write_plates(folder, plan.plates, {p.part.name: p.posed for p in plan.parts}, beds)
    write_text(folder / "plan.json", json.dumps(plan_json(plan), indent=1, ensure_ascii=False, allow_nan=False) + "\n")
    if plan.coupon is not None:
        _write_coupon(plan, plan.coupon, folder / "coupon")
    write_text(folder / REPORT, page(plan, papers_beside(folder)))
    kept = {name for name, was in before.items() if _state(folder / name) == was}
    write_text(folder / MANIFEST, manifest(folder, sorted(files_in(folder) - kept - {MANIFEST}), plan.plates))
    return folder / REPORT


def _state(path: Path) -> tuple[int, int]:
    """Return what tells a file from one that was written in its place: a rename gives it another number."""
    found = path.lstat()
    return found.st_ino, found.st_mtime_ns


def _write_coupon(plan: Plan, first: CouponFirst, folder: Path) -> tuple[Path, Path]:
    """Write the coupon that comes before the plates, and the form for what it measures."""
    job = plan.job
    return write_coupon(
        folder,
        coupon(job.settings.line_width_mm.value),
        printer=first.printer,
        material=first.material,
        nozzle_mm=job.printer.nozzle_mm.value,
        day=first.day,
    )

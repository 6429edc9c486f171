"""A plan as a folder: JSON, page, plates and parts at size, each file whole or not at all."""

from __future__ import annotations

import json
from pathlib import Path

from planner.calibrate import coupon, write_coupon
from planner.job import printers_of
from planner.mesh import write_stl
from planner.output.json.plan_json import plan_json
from planner.output.page.bench_links import papers_beside
from planner.output.page.page import page
from planner.packing import manifest, plate_stem, write_plates
from planner.plan import CouponFirst, Plan
from planner.whole_file import whole


def write_plan(plan: Plan, folder: Path) -> Path:
    """Write everything about a plan into a folder and return the report's path.

    The report names the papers that lie in ``folder/bench`` by then: write them first.
    """
    (folder / "parts").mkdir(parents=True, exist_ok=True)
    for part in plan.parts:
        write_stl(folder / part.file, [part.sized])
    beds = {printer.name: printer.bed for printer in printers_of(plan.job)}
    write_plates(folder, plan.plates, {p.part.name: p.posed for p in plan.parts}, beds)
    names = [f"{plate_stem(plate.number)}{ending}" for plate in plan.plates for ending in (".3mf", ".stl")]
    write_text(folder / "plan.json", json.dumps(plan_json(plan), indent=1, ensure_ascii=False, allow_nan=False) + "\n")
    report = folder / "report.html"
    if plan.coupon is not None:
        mesh, _ = _write_coupon(plan, plan.coupon, folder / "coupon")
        names.append(mesh.relative_to(folder).as_posix())
    write_text(report, page(plan, papers_beside(folder)))
    names += [part.file for part in plan.parts] + ["plan.json", report.name]
    write_text(folder / "plates" / "manifest.json", manifest(folder, tuple(names), plan.plates))
    return report


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


def write_text(path: Path, text: str) -> None:
    """Write a text through a temporary file and a rename."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with whole(path) as aside:
        aside.write_text(text, encoding="utf-8")

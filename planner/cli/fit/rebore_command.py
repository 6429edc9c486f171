"""``fitwright rebore``: every part at scale, with bores that fit the hardware again."""

from __future__ import annotations

from datetime import date
from functools import partial
from pathlib import Path
from typing import Annotated

import typer

from planner.cli.options import JobArgument, JsonOption, PrinterOption, QuietOption, ScaleOption, UnitOption

MANIFEST = "rebored.json"
"""What was written into the folder, by checksum: the next run takes it out again, and leaves what is people's."""


def rebore(
    job: JobArgument,
    out_dir: Annotated[Path, typer.Option("-o", "--out", metavar="DIR", help="Folder for the parts.")] = Path(
        "rebored"
    ),
    scale: ScaleOption = None,
    printer: PrinterOption = None,
    unit: UnitOption = None,
    json: JsonOption = "",
    quiet: QuietOption = False,
) -> None:
    """Write each part at scale, with its hardware bores changed so that they fit the hardware when printed.

    Example: `fitwright rebore job.toml --scale 87 -o small`
    """
    from planner.cli.load_job import load
    from planner.mesh import write_stl
    from planner.output import Out, rebore_json, show_rebored
    from planner.packing import manifest, taken, untouched_files
    from planner.plan import prepare, prepare_rebored
    from planner.rules import check
    from planner.size import window
    from planner.whole_file import write_text
    from planner.whole_folder import whole_folder

    out = Out(json_path=json, quiet=quiet)
    with out.progress() as progress:
        before = prepare(load(job, percent=scale, printer=printer, unit=unit), date.today(), progress)
        result, after = prepare_rebored(before, progress)
    files: dict[str, Path] = {}
    for index, name in enumerate(result.solids, 1):
        path = out_dir / "parts" / f"{file_name(name)}.stl"
        names = [other.name for other in files.values()]
        files[name] = path if not taken(path.name, names) else path.with_stem(f"{path.stem}-{index}")
    with whole_folder(out_dir, partial(untouched_files, at=MANIFEST)) as twin:  # never parts of two sizes
        for name, solid in result.solids.items():
            write_stl(twin / files[name].relative_to(out_dir), [solid])
        listed = sorted(path.relative_to(out_dir).as_posix() for path in files.values())
        write_text(twin / MANIFEST, manifest(twin, listed))
    percent = before.sizing.percent
    checked = (check(before.bound, percent), check(after.bound, 100.0))
    windows = (window(before.bound.every, percent), window(after.bound.every, 100.0))
    out.emit(rebore_json(result.changes, files, percent, checked, windows))
    show_rebored(out.console, result.changes, percent, checked, windows, out_dir)
    raise typer.Exit(0 if checked[1].verdict.passes else 1)


def file_name(part: str) -> str:
    """Return a part's name as a file name.

    >>> file_name("front cover/2")
    'front cover-2'
    """
    from planner.packing import file_word

    return file_word(part, kept=" -_.") or "part"

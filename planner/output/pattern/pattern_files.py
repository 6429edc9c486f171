"""Patterns as a folder: SVG and DXF of each, one PDF of all, and bucks as STL; whole or not at all."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from pathlib import Path

from planner.mesh import write_stl
from planner.output.paper_files.page_size import PageSize
from planner.output.paper_files.paper_pdf import pdf
from planner.output.pattern.pattern_dxf import pattern_dxf
from planner.output.pattern.pattern_sheet import pattern_head, pattern_sheet
from planner.output.pattern.pattern_svg import pattern_svg
from planner.output.words.paper_words import percent
from planner.packing import file_word, manifest, taken, untouched_files
from planner.plan import PaddingPatterns
from planner.whole_file import whole, write_text
from planner.whole_folder import whole_folder

PDF = "patterns.pdf"
MANIFEST = "patterns.json"
"""What was written into the folder, by checksum: the next run takes it out again, and leaves what is people's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternFiles:
    """The files of one pattern; None where it has none."""

    svg: Path | None = None
    dxf: Path | None = None
    buck: Path | None = None


def write_patterns(found: PaddingPatterns, folder: Path, size: PageSize) -> tuple[Path, tuple[PatternFiles, ...]]:
    """Write all patterns of a job in place of earlier ones; return the PDF's path, and the files of each pattern."""
    stems: list[str] = []
    for n, pattern in enumerate(found.patterns, 1):
        stem = f"padding-{file_word(pattern.part) or 'part'}"
        stems.append(stem if not taken(stem, stems) else f"{stem}-{n}")
    files = []
    with whole_folder(folder, partial(untouched_files, at=MANIFEST)) as twin:
        for pattern, stem in zip(found.patterns, stems, strict=True):
            svg = dxf = buck = None
            if pattern.flat is not None:
                title = f"Padding of {pattern.part}, {pattern.thick_mm:g} mm thick, at {percent(found.percent)}"
                svg, dxf = Path(f"{stem}.svg"), Path(f"{stem}.dxf")
                write_text(twin / svg, pattern_svg(pattern.flat, title))
                write_text(twin / dxf, pattern_dxf(pattern.flat))
            if pattern.buck is not None:
                buck = Path(f"{stem.replace('padding-', 'buck-', 1)}.stl")
                write_stl(twin / buck, [pattern.buck])
            files.append(PatternFiles(svg=svg, dxf=dxf, buck=buck))
        with whole(twin / PDF) as aside:
            aside.write_bytes(pdf([pattern_sheet(found, size)], pattern_head(found), size))
        names = [path.as_posix() for one in files for path in (one.svg, one.dxf, one.buck) if path is not None]
        write_text(twin / MANIFEST, manifest(twin, sorted([PDF, *names])))
    return folder / PDF, tuple(
        PatternFiles(
            svg=one.svg and folder / one.svg, dxf=one.dxf and folder / one.dxf, buck=one.buck and folder / one.buck
        )
        for one in files
    )

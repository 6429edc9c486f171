"""The audit: what a program does, compared with what the plan expects; every difference is a finding by rule."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy import ndimage

from planner.finding import Finding
from planner.gcode.copies.copy_compare import CopyReport, best_fit, compared
from planner.gcode.copies.copy_rules import copy_findings
from planner.gcode.copies.part_as_planned import Original
from planner.gcode.copies.piece import Piece, piece_of
from planner.gcode.copies.size_rules import Copy
from planner.gcode.expected import Expected
from planner.gcode.head_and_fan_rules import motion_findings
from planner.gcode.machine_rules import machine_findings
from planner.gcode.matching.islands import GROUND_MM, islands_of
from planner.gcode.matching.line_raster import Laid
from planner.gcode.matching.match import GAP_LEAST_MM, Match, Matcher, Matching, matching
from planner.gcode.plate_rules import plate_findings
from planner.gcode.program_measures import Measured
from planner.gcode.strokes import Strokes
from planner.rules import by_severity

OWN_CELLS = 2
"""Lines this near to an island belong to it."""
NEAR_MM = 2.0
"""On the ground, lines this near to the part's shadow belong to it, where no other island claims them."""
SAME_SIZE = (0.8, 1.25)
"""A piece of another size is told by that alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """The findings, worst first, and what was matched."""

    findings: tuple[Finding, ...]
    matching: Matching


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Plate:
    """The islands of a program matched with the plate's parts, and what the exact look needs of both."""

    matching: Matching
    pieces: dict[int, Piece]
    """By the place of the match in ``matching``."""
    originals: dict[str, Original]


def match_plate(measured: Measured, expected: Expected) -> Plate:
    """Find out which island of a program is which part of a plate."""
    settings = expected.settings
    strokes = measured.strokes
    if measured.spiral_turns_n > 0:
        strokes = strokes.in_layers_of(settings.first_layer_height_mm.value, settings.layer_height_mm.value)
    laid = Laid.on(expected.printer.bed)
    laid.add(strokes)
    islands = islands_of(laid, settings.layer_height_mm.value)
    owner = _owners(strokes, laid, [island.cells for island in islands])
    originals: dict[str, Original] = {}
    parts = {part.name: part for part in expected.parts}
    numbers = {id(island): number for number, island in enumerate(islands)}

    def original(name: str) -> Original:
        """Return a part with its sections, made once."""
        if name not in originals:
            originals[name] = Original.of(parts[name].solid, settings, support=parts[name].support)
        return originals[name]

    def piece(match: Match) -> Piece:
        """Return the lines of a match."""
        return piece_of(_lines_of(strokes, owner, numbers[id(match.island)], match, original(match.part)), settings)

    def exact(match: Match) -> float:
        """Return how alike a match is by exact sections; a mirrored one a little less, as its twin may be planned."""
        if not SAME_SIZE[0] < match.across_share < SAME_SIZE[1]:
            return match.alike_share
        fit, mismatch = best_fit(piece(match), original(match.part), match.poses, settings)
        return 1.0 - mismatch - 0.05 * fit.pose.mirrored

    share = max(settings.infill_percent.value / 100.0, 0.05)
    width = settings.line_width_mm.value
    matcher = Matcher(
        laid=laid,
        width_mm=width,
        first_mm=settings.first_layer_height_mm.value,
        gaps_mm=tuple(sorted({1.2 * width / share, GAP_LEAST_MM}, reverse=True)),
    )
    found = matching(islands, expected.parts, matcher, exact)
    return Plate(
        matching=found,
        pieces={k: piece(match) for k, match in enumerate(found.matches)},
        originals={match.part: original(match.part) for match in found.matches},
    )


def audit(measured: Measured, expected: Expected, plate: Plate | None = None) -> Audit:
    """Compare a measured program with a plate of the plan; ``plate`` where it is matched already."""
    plate = plate or match_plate(measured, expected)
    settings = expected.settings
    copies = []
    for k, match in enumerate(plate.matching.matches):
        report: CopyReport | None = None
        if SAME_SIZE[0] < match.across_share < SAME_SIZE[1]:
            report = compared(plate.pieces[k], plate.originals[match.part], match.poses, settings, expected.limits)
        copies.append(Copy(match=match, report=report, solid=plate.originals[match.part].solid))
    found = replace(plate.matching, matches=tuple(copy.as_measured() for copy in copies))
    findings = [
        *copy_findings(copies, settings, expected.limits),
        *plate_findings(found, copies),
        *machine_findings(measured, expected),
        *motion_findings(measured, expected),
    ]
    return Audit(findings=by_severity(findings), matching=found)


def _owners(strokes: Strokes, laid: Laid, islands: list[NDArray[np.bool_]]) -> NDArray[np.int64]:
    """Return the number of the island that each line belongs to, -1 for none."""
    label = np.zeros(laid.shape, dtype=np.int32)
    for number, cells in enumerate(islands):
        label[cells] = number + 1
    size = 2 * OWN_CELLS + 1
    label = np.where(label > 0, label, ndimage.grey_dilation(label, size=(size, size)))
    return label[laid.cell_of(strokes.middle_mm)].astype(np.int64) - 1


def _lines_of(strokes: Strokes, owner: NDArray[np.int64], number: int, match: Match, original: Original) -> Strokes:
    """Return the lines of an island, and on the ground what lies within reach of the part and is nobody else's."""
    mine = owner == number
    if match.poses:
        pose = match.poses[0]
        bounds = (original.mirrored if pose.mirrored else original.solid).bounds_mm[:, :2]
        loose = (owner < 0) & (strokes.level_mm < GROUND_MM)
        where = strokes.where(loose).middle_mm @ pose.matrix.T + pose.offset_mm
        near = ((where >= bounds[0] - NEAR_MM) & (where <= bounds[1] + NEAR_MM)).all(axis=1)
        mine = mine.copy()
        mine[np.flatnonzero(loose)[near]] = True
    return strokes.where(mine)

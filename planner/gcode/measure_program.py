"""What a program does, measured from its moves: layers, extents, filament, time, flow, temperatures, places.

Nothing is read from comments. The file is taken in chunks, so that its size does not matter.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.errors import ProgramError
from planner.gcode.laid import Laid
from planner.gcode.machine_state import BED, DE, DWELL, NOZZLE, UNKNOWN, X0, X1, Z0, Z1, moves_of, start_state
from planner.gcode.move_times import rest_to_rest_s
from planner.gcode.program_words import parse
from planner.job import Printer
from planner.survey import hull_points

Floats = NDArray[np.float64]

CHUNK_BYTES = 2_000_000
JUNK_SHARE = 0.02
"""More bytes that are no text than this, and it is no G-code."""
FLOW_LEAST_MM = 1.0
"""Shorter lines have no flow worth a limit: they last milliseconds."""
HEIGHT_DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """Measures of a program. Lengths mm, times s, volumes mm3; ``low_mm``, ``high_mm`` of bead centre lines.

    ``heights_mm`` (k,) are those at which filament was laid, with its ``volumes_mm3`` (k,); ``nozzle_c``, ``bed_c``
    map each temperature set to the volume laid at it, minus infinity where none had been set.
    """

    duration_s: float
    filament_mm: float
    deposited_mm3: float
    low_mm: Floats
    high_mm: Floats
    rim_mm: Floats
    """Corners (n, 2) of the convex hull of all that is laid, seen from above."""
    heights_mm: Floats
    volumes_mm3: Floats
    spiral_turns: float
    peak_flow_mm3_s: float
    nozzle_c: dict[float, float]
    bed_c: dict[float, float]
    moves_n: int
    unknown_n: int
    laid: Laid

    @property
    def layers_n(self) -> int:
        """Number of layers: heights, or turns of a spiral that climbs all the time."""
        return round(self.spiral_turns) if self.spiral_turns > 0 else len(self.heights_mm)

    @property
    def size_mm(self) -> Floats:
        """Extents of the bead centre lines."""
        return self.high_mm - self.low_mm


def measure(path: Path, printer: Printer) -> Measured:
    """Measure a G-code program.

    Raises
    ------
    ProgramError
        It cannot be read, is packed or binary, or lays no filament at all.
    """
    state = start_state(min(1500.0, printer.acceleration_max_mm_s2.value))
    sums = _Sums(printer)
    for values, codes in rows_of(path):
        sums.add(moves_of(values, codes, state))
    sums.finish()
    return sums.measured(path.name, int(state[UNKNOWN]))


def rows_of(path: Path) -> Iterator[tuple[Floats, Floats]]:
    """Yield rows of words, chunk by chunk; refuse what is no text."""
    try:
        if not path.is_file():
            raise ProgramError(where=str(path), wrong="there is no such file", todo="name a G-code program")
        with path.open("rb") as file:
            rest, seen, junk = b"", 0, 0
            while True:
                block = file.read(CHUNK_BYTES)
                seen += len(block)
                chunk = np.frombuffer(rest + block, dtype=np.uint8)
                values, codes, used, bad = parse(chunk, last=not block)
                junk += bad
                if junk > JUNK_SHARE * seen + 16 or len(chunk) - used > 4 * CHUNK_BYTES:
                    wrong = "it is packed or binary, not the text of a G-code program"
                    raise ProgramError(where=path.name, wrong=wrong, todo="export it as plain G-code text")
                yield values, codes
                rest = chunk[used:].tobytes()
                if not block:
                    return
    except OSError as problem:
        wrong = f"it cannot be read ({problem.strerror})"
        raise ProgramError(where=str(path), wrong=wrong, todo="check the path") from None


class _Sums:
    """Running sums over the moves of a program."""

    def __init__(self, printer: Printer) -> None:
        self.printer = printer
        self.area_mm2 = float(np.pi * printer.filament_mm.value**2 / 4.0)
        self.duration_s = self.filament_mm = self.owed_mm = self.peak = 0.0
        self.turned = self.climbing_mm = self.flat_mm = 0.0
        self.low, self.high = np.full(3, np.inf), np.full(3, -np.inf)
        self.heights: dict[float, float] = {}
        self.nozzle: dict[float, float] = {}
        self.bed: dict[float, float] = {}
        self.rim = np.empty((0, 2))
        self.moves_n = 0
        self.heading = np.nan
        self.laid = Laid.on(printer.bed)
        self.waiting = np.empty((0, 13))

    def add(self, moves: Floats) -> None:
        """Add moves; time is counted up to the last place where the machine rests anyway."""
        self.moves_n += len(moves)
        waiting = np.concatenate([self.waiting, moves])
        rests = np.flatnonzero(_resting(waiting))
        cut = int(rests[-1]) + 1 if len(rests) else (len(waiting) if len(waiting) > 2_000_000 else 0)
        self._count(waiting[:cut])
        self.waiting = waiting[cut:]

    def finish(self) -> None:
        """Count what is left."""
        self._count(self.waiting)
        self.waiting = self.waiting[:0]

    def _count(self, moves: Floats) -> None:
        """Count moves from rest to rest."""
        if not len(moves):
            return
        times, peaks = rest_to_rest_s(moves, self.printer)
        self.duration_s += float(times.sum())
        length = np.linalg.norm(moves[:, X1 : Z1 + 1] - moves[:, X0 : Z0 + 1], axis=1)
        laid_mm = self._laid_mm(moves[:, DE])
        self.filament_mm += float(laid_mm.sum())
        along = (laid_mm > 0) & (length > 0)
        if not along.any():
            return
        line, volume = moves[along], laid_mm[along] * self.area_mm2
        ends = np.concatenate([line[:, X0 : Z0 + 1], line[:, X1 : Z1 + 1]])
        self.low, self.high = np.minimum(self.low, ends.min(axis=0)), np.maximum(self.high, ends.max(axis=0))
        flat = ends[np.isfinite(ends).all(axis=1), :2]
        if len(flat):
            self.rim = hull_points(np.concatenate([self.rim, flat]))
        self._add_to(self.heights, np.round(line[:, Z1], HEIGHT_DIGITS), volume)
        self._add_to(self.nozzle, line[:, NOZZLE], volume)
        self._add_to(self.bed, line[:, BED], volume)
        long = length[along] >= FLOW_LEAST_MM
        if long.any():
            self.peak = max(self.peak, float((volume / length[along] * peaks[along])[long].max()))
        self._spiral(line, length[along])
        self.laid.add(line)

    def _laid_mm(self, de: Floats) -> Floats:
        """Return the filament that comes out of each move: what was drawn back must first go in again."""
        balance = np.cumsum(de) - self.owed_mm
        highest = np.maximum.accumulate(np.maximum(balance, 0.0))
        out: Floats = np.diff(highest, prepend=0.0)
        self.owed_mm = float(highest[-1] - balance[-1])
        return out

    def _spiral(self, line: Floats, length: Floats) -> None:
        """Sum how far the lines turn, and how much of them climbs."""
        climbs = np.abs(line[:, Z1] - line[:, Z0]) > 1e-6
        self.climbing_mm += float(length[climbs].sum())
        self.flat_mm += float(length[~climbs].sum())
        heading = np.arctan2(line[climbs, 4] - line[climbs, 1], line[climbs, 3] - line[climbs, 0])
        if len(heading):
            steps = np.diff(heading, prepend=self.heading if np.isfinite(self.heading) else heading[0])
            self.turned += float(((steps + np.pi) % (2 * np.pi) - np.pi).sum())
            self.heading = float(heading[-1])

    @staticmethod
    def _add_to(sums: dict[float, float], keys: Floats, values: Floats) -> None:
        """Add values to a table by key; what is not finite is one key, minus infinity."""
        unique, index = np.unique(keys, return_inverse=True)
        for key, value in zip(unique, np.bincount(index, weights=values), strict=True):
            name = float(key) if np.isfinite(key) else float("-inf")
            sums[name] = sums.get(name, 0.0) + float(value)

    def measured(self, where: str, unknown_n: int) -> Measured:
        """Return the sums."""
        if not self.heights:
            raise ProgramError(where=where, wrong="no move of it lays filament", todo="name the program that prints")
        heights = np.array(sorted(self.heights))
        return Measured(
            duration_s=self.duration_s,
            filament_mm=self.filament_mm,
            deposited_mm3=self.filament_mm * self.area_mm2,
            low_mm=self.low,
            high_mm=self.high,
            rim_mm=self.rim,
            heights_mm=heights,
            volumes_mm3=np.array([self.heights[height] for height in heights]),
            spiral_turns=abs(self.turned) / (2 * np.pi) if self.climbing_mm > self.flat_mm else 0.0,
            peak_flow_mm3_s=self.peak,
            nozzle_c=self.nozzle,
            bed_c=self.bed,
            moves_n=self.moves_n,
            unknown_n=unknown_n,
            laid=self.laid,
        )


def _resting(moves: Floats) -> NDArray[np.bool_]:
    """Return which moves the machine rests at: a dwell, or filament alone."""
    still = (moves[:, X0 : Z0 + 1] == moves[:, X1 : Z1 + 1]).all(axis=1)
    resting: NDArray[np.bool_] = (moves[:, DWELL] > 0) | (still & (moves[:, DE] != 0))
    return resting

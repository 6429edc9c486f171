"""What a program does, measured from its moves: layers, extents, filament, time, flow, temperatures, places.

Nothing is read from comments. The file is taken in chunks, so that its size does not matter.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from planner.errors import ProgramError
from planner.gcode.height_map import HeightMap
from planner.gcode.program_measures import Doubts, Measured
from planner.gcode.reading.interpreter import moves_of
from planner.gcode.reading.machine_state import (
    BARE_N,
    BED,
    DE,
    DWELL,
    E_DOUBT_N,
    FAN,
    FEED,
    LOST_N,
    NOZZLE,
    UNKNOWN,
    X0,
    X1,
    Z0,
    Z1,
    start_state,
)
from planner.gcode.reading.move_times import rest_to_rest_s
from planner.gcode.reading.program_file import rows_of
from planner.gcode.strokes import LEVEL_DIGITS, Strokes, joined
from planner.job import Printer
from planner.survey import hull_points

Floats = NDArray[np.float64]

FLOW_LEAST_MM = 1.0
"""Shorter lines have no flow worth a limit: they last milliseconds."""
HEIGHT_DIGITS = 3
NUMBER_MOST = 1e9
"""No place in mm, speed in mm/s or filament in mm is larger in a program that a machine can run."""


def measure(path: Path, printer: Printer) -> Measured:
    """Measure a G-code program; where E can be read in two ways, the one whose beads fit the nozzle better counts.

    Raises
    ------
    ProgramError
        It cannot be read, is packed or binary, or lays no filament at all.
    """
    found, fit = _measured(path, printer, e_by_g=False)
    if found is not None and not found.doubts.e_blocks_n:
        return found
    other, other_fit = _measured(path, printer, e_by_g=True)
    best = other if found is None or (other is not None and other_fit < fit) else found
    if best is None:
        raise ProgramError(where=path.name, wrong="no move of it lays filament", todo="name the program that prints")
    return best


def _measured(path: Path, printer: Printer, *, e_by_g: bool) -> tuple[Measured | None, float]:
    """Return the measures in one reading of E, and how far its beads are from the nozzle's size (a logarithm)."""
    state = start_state(min(1500.0, printer.acceleration_max_mm_s2.value), e_by_g=e_by_g)
    sums = _Sums(printer)
    for values, codes in rows_of(path):
        moves = moves_of(values, codes, state)
        known = float(np.abs(moves[:, : DE + 1]).max(initial=0.0)) <= NUMBER_MOST  # false for what is no number, too
        if not known or (moves[:, FEED] > NUMBER_MOST).any():
            wrong = "a move of it goes farther than any machine, or to no place at all"
            raise ProgramError(where=path.name, wrong=wrong, todo="write the program again")
        sums.add(moves)
    sums.finish()
    if not sums.heights:
        return None, math.inf
    doubts = Doubts(
        e_blocks_n=int(state[E_DOUBT_N]), e_by_g=e_by_g, bare_n=int(state[BARE_N]), lost_n=int(state[LOST_N])
    )
    found = sums.measured(doubts, int(state[UNKNOWN]))
    bead = found.deposited_mm3 / max(float(found.strokes.length_mm.sum()), 1e-9)
    return found, abs(math.log(bead / (printer.nozzle_mm.value**2 / 2.0)))  # about as wide as the nozzle, half as high


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
        self.fan: dict[float, float] = {}
        self.reach = np.array([np.full(3, np.inf), np.full(3, -np.inf)])
        self.map = HeightMap(printer.bed)
        self.strokes: list[Strokes] = []
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
        self._reach(moves, length)
        self.map.run(moves, along)
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
        self._add_to(self.fan, np.round(line[:, Z1], HEIGHT_DIGITS), volume * line[:, FAN])
        self.strokes.append(
            Strokes(
                start_mm=line[:, X0:Z0].copy(),
                end_mm=line[:, X1:Z1].copy(),
                level_mm=np.round(line[:, Z1], LEVEL_DIGITS),
                volume_mm3=volume,
            )
        )

    def _reach(self, moves: Floats, length: Floats) -> None:
        """Note how far the head is sent."""
        ends = moves[length > 0, X1 : Z1 + 1]
        if len(ends):
            self.reach[0] = np.fmin(self.reach[0], ends.min(axis=0))
            self.reach[1] = np.fmax(self.reach[1], ends.max(axis=0))

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

    def measured(self, doubts: Doubts, unknown_n: int) -> Measured:
        """Return the sums."""
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
            spiral_turns_n=abs(self.turned) / (2 * np.pi) if self.climbing_mm > self.flat_mm else 0.0,
            peak_flow_mm3_s=self.peak,
            nozzle_c=self.nozzle,
            bed_c=self.bed,
            moves_n=self.moves_n,
            unknown_n=unknown_n,
            fan_mm3=np.array([self.fan[height] for height in heights]),
            reach_mm=self.reach,
            struck_mm=self.map.struck_mm,
            strokes=joined(self.strokes),
            doubts=doubts,
        )


def _resting(moves: Floats) -> NDArray[np.bool_]:
    """Return which moves the machine rests at: a dwell, or filament alone."""
    still = (moves[:, X0 : Z0 + 1] == moves[:, X1 : Z1 + 1]).all(axis=1)
    resting: NDArray[np.bool_] = (moves[:, DWELL] > 0) | (still & (moves[:, DE] != 0))
    return resting

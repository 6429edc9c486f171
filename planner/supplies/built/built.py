"""One device as it will be built: hardware, cuts and work, decided once.

Bag, drill list, cost, assembly, labels, ``plan.json`` and the page read this record and decide nothing themselves.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.finding import Finding
from planner.job import Job
from planner.supplies.built.bag_lines import lines_of
from planner.supplies.built.bench_work import bench_work
from planner.supplies.built.built_sizes import pieces_of
from planner.supplies.cut_list import cut_list
from planner.supplies.supplies import BenchWork, Cut, HardwareLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """The device as built at one scale.

    ``hardware`` has a line for each piece that the job names, in its order, then one for each that goes with them:
    free nuts, washers, bushes. ``job`` is the job with the sizes that are taken.
    """

    job: Job
    hardware: tuple[HardwareLine, ...]
    cuts: tuple[Cut, ...]
    work: tuple[BenchWork, ...]

    def line(self, name: str) -> HardwareLine:
        """Return the line of a piece that the job names."""
        return next(line for line in self.hardware if line.name == name)

    def with_it(self, name: str) -> tuple[HardwareLine, ...]:
        """Return the lines of what goes with a piece: its nuts, washers and bushes."""
        return tuple(line for line in self.hardware if line.goes_with == name)


def built(job: Job, factor: float, findings: Sequence[Finding]) -> Built:
    """Return the device as it is built at scale ``factor`` (1.0 as drawn); ``findings`` are the check's there."""
    pieces = pieces_of(job, findings)
    return Built(
        job=replace(job, hardware=tuple(piece.hardware for piece in pieces)),
        hardware=lines_of(job, pieces, factor, findings),
        cuts=cut_list(job, factor, findings),
        work=bench_work(job, findings),
    )

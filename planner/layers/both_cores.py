"""Both cores for one part: a second process lays and times its upper layers where there are many lines."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from dataclasses import replace
from threading import Thread

import numpy as np

from planner.job import Settings
from planner.layers.lines.lay import LaidPart, laid_layers
from planner.layers.stretch import Machine, Stretch, stretch_of
from planner.mesh import Solid

CORNERS_LEAST = 250_000
"""Sections with fewer corners in all are done before a second process has started (measured: 13 us a corner)."""
LOWER_SHARE = 0.64
"""Share of the corners that the first process takes: it need not start (measured)."""
SERVE = "from planner.layers.both_cores import serve; serve()"


def laid_and_timed(
    solid: Solid, settings: Settings, machine: Machine, cores_n: int | None = None
) -> tuple[LaidPart, Stretch]:
    """Cut a solid in its pose into layers and time all of them; the answer is the same on one core and on two."""
    if (cores_n or _cores_n()) < 2 or _corners_n(solid, settings) < CORNERS_LEAST:
        whole = laid_layers(solid, settings)
        return whole, stretch_of(whole, machine, 0, len(whole.tops_mm))
    other = _Other(pickle.dumps((replace(solid), settings, machine)))  # a copy: what it keeps at hand stays here
    whole = laid_layers(solid, settings)
    cut = _cut(whole)
    lower = stretch_of(whole, machine, 0, cut)
    upper = other.answer() or stretch_of(whole, machine, cut, len(whole.tops_mm))
    return whole, lower + upper


def serve() -> None:
    """Be the second process: read a part from standard input, write the totals of its upper layers."""
    solid, settings, machine = pickle.load(sys.stdin.buffer)
    whole = laid_layers(solid, settings)
    sys.stdout.buffer.write(pickle.dumps(stretch_of(whole, machine, _cut(whole), len(whole.tops_mm))))


class _Other:
    """A second process at work on what it was given."""

    def __init__(self, given: bytes) -> None:
        path = os.pathsep.join(folder for folder in sys.path if folder)
        self._process = subprocess.Popen(  # noqa: S603 - our own interpreter and module
            [sys.executable, "-c", SERVE],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": path},
        )
        self._given, self._answer = given, b""
        self._thread = Thread(target=self._talk, daemon=True)
        self._thread.start()

    def _talk(self) -> None:
        """Hand over the work and wait for the answer."""
        self._answer = self._process.communicate(self._given)[0]

    def answer(self) -> Stretch | None:
        """Return the totals, or None where the process failed: the caller then does the work itself."""
        self._thread.join()
        if self._process.returncode != 0 or not self._answer:
            return None
        found = pickle.loads(self._answer)
        return found if isinstance(found, Stretch) else None


def _cores_n() -> int:
    """Return how many cores this process may use, where the system tells; else how many there are."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def _corners_n(solid: Solid, settings: Settings) -> int:
    """Return about how many corners all sections have together: one for every triangle that a layer cuts."""
    heights = solid.corners_mm[:, :, 2]
    return int(np.sum((heights.max(axis=1) - heights.min(axis=1)) / settings.layer_height_mm.value))


def _cut(whole: LaidPart) -> int:
    """Return the first layer of the upper ones."""
    corners = np.cumsum([section.num_vert() for section in whole.sections])
    return int(np.searchsorted(corners, LOWER_SHARE * corners[-1])) if len(corners) else 0

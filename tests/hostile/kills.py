"""``python -m tests.hostile.kills [N] [SEED] [SCENE]...``: programs killed at random moments, and what is found then."""

from __future__ import annotations

import multiprocessing
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import planner.cli.app
import planner.output
import planner.plan
import planner.schedule  # noqa: F401  imported before children fork
from tests.hostile.kill_desk import DeskScene
from tests.hostile.kill_scenes import COMMANDS, Scene

FORK = multiprocessing.get_context("fork")
"""Children begin with the rooms imported: moments to be killed at are those of the work, not of the imports."""
PATIENCE_S = 600.0
SCENES: dict[str, Callable[[Path], Scene]] = {**COMMANDS, "desk": DeskScene}
"""By the command."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Killed:
    """One kill: of what, how long after the start (or after it began to write), and what was wrong after it.

    ``midway``: it left something half-written beside its place, for the next run to clear away.
    """

    scene: str
    after_s: float
    midway: bool
    wrong: str


def run(work: Callable[[], object]) -> multiprocessing.process.BaseProcess:
    """Start work in a process of its own, which leads a group of its own."""
    child = FORK.Process(target=_apart, args=(work,))
    child.start()
    return child


def _apart(work: Callable[[], object]) -> None:
    """Do the work without a word on the terminal."""
    os.setsid()
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    if "FITWRIGHT_LOUD" not in os.environ:
        os.dup2(quiet, 2)
    work()


def kill(child: multiprocessing.process.BaseProcess) -> None:
    """Kill a process and all that it began."""
    assert child.pid is not None
    try:
        os.killpg(child.pid, signal.SIGKILL)
    except ProcessLookupError:  # it has not come to lead a group, or has ended
        child.kill()
    child.join(PATIENCE_S)


def ended(child: multiprocessing.process.BaseProcess) -> str:
    """Wait for a process, and return what is wrong with how it ended."""
    child.join(PATIENCE_S)
    if child.is_alive():
        kill(child)
        return "the next run did not end"
    return "" if child.exitcode in (0, 1) else f"the next run ended with {child.exitcode}"


def kills(folder: Path, seed: int, n: int, scenes: Sequence[str] = tuple(SCENES)) -> Iterator[Killed]:
    """Kill a program so many times, each scene in turn, and yield what was found after each kill."""
    draw = random.Random(seed)  # noqa: S311  a seeded draw
    stages: dict[str, Scene] = {}
    lasts_s: dict[str, tuple[float, float]] = {}
    for number in range(n):
        name = scenes[number % len(scenes)]
        if name not in stages:
            stages[name] = SCENES[name](folder / name)
            lasts_s[name] = _rehearsed(stages[name])
        scene, (whole_s, writing_s) = stages[name], lasts_s[name]
        child = run(scene.begin(number))
        after_s = draw.uniform(0.0, whole_s)
        if writing_s > 0.0 and draw.random() < 0.6:  # most of what can go wrong goes wrong there
            _until(scene.writes, child)
            after_s = draw.uniform(0.0, writing_s)
        scene.watched(after_s, lambda child=child: kill(child))  # type: ignore[misc]
        wrong, midway = scene.wrong_now(), bool(left_over(scene.folder))
        again = run(scene.again(number))
        wrong = wrong or scene.answered(again) or ended(again) or scene.wrong_now() or left_over(scene.folder)
        yield Killed(scene=name, after_s=after_s, midway=midway, wrong=wrong)


def left_over(folder: Path) -> str:
    """Return the files that nobody would ever clear away."""
    left = [path.name for path in folder.rglob("*") if ".fitwright-" in path.name or path.name.startswith("tmp")]
    return f"left for good: {left}" if left else ""


def _rehearsed(scene: Scene) -> tuple[float, float]:
    """Run a scene once to its end; return how long it lasts, and how long it writes."""
    begin, wrote = time.monotonic(), 0.0
    child = run(scene.again(0))
    _until(scene.writes, child)
    wrote = time.monotonic()
    told = scene.answered(child) or ended(child)
    assert not told, told
    ends = time.monotonic()
    return ends - begin, ends - wrote if scene.writes is not None else 0.0


def _until(writes: Callable[[], bool] | None, child: multiprocessing.process.BaseProcess) -> None:
    """Wait until a program begins to write."""
    while writes is not None and child.is_alive() and not writes():
        time.sleep(0.001)


def main() -> int:
    """Run, print each kill after which something was wrong, and return whether there was one."""
    n, seed = (int(word) for word in [*sys.argv[1:3], *("200", "1")[len(sys.argv[1:3]) :]])
    folder, seen = Path(tempfile.mkdtemp(prefix="kills-")), Counter[str]()
    bad = midway = 0
    for one in kills(folder, seed, n, tuple(sys.argv[3:]) or tuple(SCENES)):
        seen[one.scene] += 1
        bad, midway = bad + bool(one.wrong), midway + one.midway
        if one.wrong or sum(seen.values()) % 20 == 0:
            print(f"{sum(seen.values())} {one.scene} after {one.after_s:.3f} s: {one.wrong or 'well'}", flush=True)
    print(
        f"{sum(seen.values())} kills {dict(seen)}, seed {seed}, {midway} midway in a file: {bad} with something wrong, in {folder}"
    )
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())

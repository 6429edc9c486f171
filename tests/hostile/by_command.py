"""``python -m tests.hostile.by_command [N] [SEED] [KIND]...``: damaged files handed to the command line.

Each command runs in a fork of its own of a parent that has loaded every room, with a cache that the sound files have
filled. It must end with 0, 1 or 2 in 20 s of processor time and 2 GB, without a traceback; with 2 it says one sentence;
with 1 it says why on stdout. It leaves no half-written file, and a refusal leaves what was there. Culprits stay in the
folder that is named at the end; all else is taken away.
"""

from __future__ import annotations

import importlib
import json
import multiprocessing
import os
import pkgutil
import random
import re
import resource
import shutil
import sys
import tempfile
import time
import tomllib
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

import planner
from planner.cli import main as command_line
from planner.whole_file import MARK
from tests.hostile.commands.scene import HANDED, Case, house, laid

MEMORY_BYTES, SECONDS_MOST, WALL_MOST_S = 2 * 2**30, 20, 300.0
"""A command that waits without end spends no processor time: the clock on the wall ends it, too."""
FIRST = 30
"""So much longer a sound file may take that fills the cache."""
FORK = multiprocessing.get_context("fork")
SENTENCE = re.compile(r"fitwright: [^\n]+[.?]\n")
KEPT = {"job.toml", "ledger.db", "record.toml"}
"""What a refused command must leave as it was; only databases of a damaged ledger may be healed by their own engine."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """How a command ended: code, what it said, and the seconds it took of a processor."""

    code: int
    out: str
    err: str
    cpu_s: float


def loaded() -> None:
    """Load every room of the program before children fork."""
    for found in pkgutil.walk_packages(planner.__path__, "planner."):
        if not found.name.endswith(("__main__", ".env")) and ".migrations." not in found.name:
            importlib.import_module(found.name)


def ended(words: list[str], cwd: Path, told: Path, patience: int = 1) -> Ended:
    """Run a command in a fork of its own, with the limits of time so many times over."""
    seconds = SECONDS_MOST * patience

    def work() -> None:
        resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_BYTES, MEMORY_BYTES))
        resource.setrlimit(resource.RLIMIT_CPU, (seconds, seconds + 5))
        os.chdir(cwd)
        for number, name in ((1, "out"), (2, "err")):
            os.dup2(os.open(told.with_suffix(f".{name}"), os.O_WRONLY | os.O_CREAT | os.O_TRUNC), number)
        sys.argv = ["fitwright", *words]
        command_line()

    before = _spent_s()
    child = FORK.Process(target=work)
    child.start()
    child.join(WALL_MOST_S * patience)
    hung = child.is_alive()
    if hung:
        child.kill()
        child.join()
    out, err = (told.with_suffix(f".{name}").read_text(encoding="utf-8", errors="replace") for name in ("out", "err"))
    return Ended(code=-99 if hung else child.exitcode or 0, out=out, err=err, cpu_s=_spent_s() - before)


def wrong(case: Case, end: Ended, before: dict[str, bytes]) -> str:
    """Return what is wrong with how a command ended, or with what it left; nothing where all is well."""
    if end.code not in (0, 1, 2):
        return f"it ended with {end.code}: {end.err[-200:]}"
    if "Traceback" in end.err or "a fault in fitwright" in end.err:
        return end.err[:400]
    if "Warning: " in end.err:
        return f"a library speaks first: {end.err[:300]!r}"
    if end.code == 2 and not SENTENCE.fullmatch(end.err):
        return f"no sentence: {end.err[:300]!r}"
    if end.code == 1 and not end.out.strip():
        return f"a hold that says nothing: {end.err[:300]!r}"
    folder = case.path.parent
    if torn := [
        one.name for one in folder.rglob("*") if MARK in one.name or (one.name != case.path.name and _torn(one))
    ]:
        return f"torn: {torn}"
    lost = [name for name, was in before.items() if end.code == 2 and (folder / name).read_bytes() != was]
    return f"refused, and changed {lost}" if lost else ""


def _torn(path: Path) -> bool:
    """Return whether a file that the command wrote cannot be read back."""
    try:
        match path.suffix:
            case ".toml":
                tomllib.loads(path.read_text(encoding="utf-8"))
            case ".json":
                json.loads(path.read_text(encoding="utf-8"))
            case _:
                return False
    except ValueError:
        return True
    return False


def _spent_s() -> float:
    """Return processor seconds of children that have ended."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


def main() -> int:
    """Run, print each fault as it comes with its folder, and return whether there was one."""
    n, seed = (int(word) for word in [*sys.argv[1:3], *("300", "1")[len(sys.argv[1:3]) :]])
    kinds = tuple(sys.argv[3:]) or tuple(HANDED)
    folder, draw, begin = Path(tempfile.mkdtemp(prefix="by-command-")), random.Random(seed), time.time()  # noqa: S311
    os.environ |= {"TMPDIR": str(folder), "COLUMNS": "100"}
    os.environ.setdefault("FITWRIGHT_CACHE", str(folder / "cache"))
    tempfile.tempdir = None
    faults = 0
    try:
        loaded()
        sound = house(folder)
        faults += _sound(sound, kinds, folder, draw)
        codes: Counter[int] = Counter()
        spent: dict[str, float] = dict.fromkeys(kinds, 0.0)
        for number in range(n):
            case = laid(kind := draw.choice(kinds), draw.choice(sound[kind]), folder, folder / str(number), draw)
            end, told = _tried(case, folder / "told")
            codes[end.code] += 1
            spent[kind] += end.cpu_s
            faults += bool(told)
            if told:
                print(f"{kind} {case.path}: fitwright {' '.join(case.words)}: {told}", flush=True)
            else:
                shutil.rmtree(case.path.parent)
        print(f"processor seconds by kind: { {kind: round(cpu_s) for kind, cpu_s in spent.items()} }")
        print(
            f"{n} files by the command, seed {seed}, {time.time() - begin:.0f} s, ended {dict(codes)}: {faults} faults"
        )
    finally:
        if not faults:
            shutil.rmtree(folder, ignore_errors=True)
    return 1 if faults else 0


def _sound(sound: dict[str, list[Path]], kinds: tuple[str, ...], folder: Path, draw: random.Random) -> int:
    """Run every command with its sound files, which fills the cache; return how many are refused, which proves nothing."""
    small = ended(["plan", "job.toml", "-o", "plan"], folder / "small", folder / "told", FIRST)
    print(f"the small job planned: {small.code} in {small.cpu_s:.0f} s", flush=True)
    refused = 0
    for kind in kinds:
        for number, source in enumerate(sound[kind]):
            case = laid(kind, source, folder, folder / f"{kind}-{number}", draw, whole=True)
            end = ended(case.words, case.path.parent, folder / "told", FIRST)
            if end.code == 2 and source.suffix not in (".nc", ".toml"):
                refused += 1
            if end.code not in (0, 1):
                print(f"sound {kind} {source.name} ended with {end.code}: {end.err.strip()[:300]}", flush=True)
            shutil.rmtree(case.path.parent)
    return refused


def _tried(case: Case, told: Path) -> tuple[Ended, str]:
    """Run a case and return how it ended and what is wrong with it."""
    folder = case.path.parent
    before = {name: (folder / name).read_bytes() for name in KEPT if (folder / name).is_file()}
    before.pop(case.path.name if case.kind == "book" else "", None)
    end = ended(case.words, folder, told)
    return end, wrong(case, end, before)


if __name__ == "__main__":
    sys.exit(main())

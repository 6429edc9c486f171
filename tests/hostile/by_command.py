"""``python -m tests.hostile.by_command [N] [SEED]``: mutated files handed to the command line, each in a process of its own.

Each run must end with 0, 1 or 2 in 20 s of processor time and 2 GB, without a traceback; with 2 it says one sentence.
"""

from __future__ import annotations

import multiprocessing
import os
import random
import re
import resource
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path

import planner.cli.app
import planner.output
import planner.plan
import planner.remedy  # noqa: F401  imported before children fork
from planner.cli import main as command_line
from tests.hostile.mutants import mutated
from tests.hostile.readers import sound_files

MEMORY_BYTES, SECONDS_MOST = 2 * 2**30, 20
FORK = multiprocessing.get_context("fork")
COMMANDS: dict[str, Callable[[Path, Path], list[str]]] = {
    "mesh": lambda path, _: ["inspect", str(path)],
    "job": lambda path, _: ["check", str(path)],
    "printer": lambda path, job: ["settings", str(job), "--printer", str(path)],
    "material": lambda path, job: ["check", str(job), "--material", str(path)],
    "log": lambda path, _: ["calibrate", "--log", str(path), "-o", str(path.with_name("mine.toml"))],
    "readings": lambda path, _: ["calibrate", str(path), "-o", str(path.with_name("mine.toml"))],
    "program": lambda path, job: ["learn", str(path), "--job", str(job)],
    "journal": lambda path, job: ["ledger", str(job.with_name("other.db")), "import", str(path.parent)],
}
"""What a file of each kind is handed to, with a sound job beside it."""


def ended(words: list[str], told: Path) -> tuple[int, str]:
    """Run a command in a process of its own; return how it ended, and what it said on stderr."""

    def work() -> None:
        resource.setrlimit(resource.RLIMIT_DATA, (MEMORY_BYTES, MEMORY_BYTES))
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS_MOST, SECONDS_MOST + 5))
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.dup2(os.open(told, os.O_WRONLY | os.O_CREAT | os.O_TRUNC), 2)
        sys.argv = ["fitwright", *words]
        command_line()

    child = FORK.Process(target=work)
    child.start()
    child.join()
    return child.exitcode if child.exitcode is not None else -1, told.read_text(encoding="utf-8", errors="replace")


def wrong(code: int, said: str) -> str:
    """Return what is wrong with how a command ended."""
    if code not in (0, 1, 2):
        return f"it ended with {code}: {said[-200:]}"
    if "Traceback" in said or "a fault in fitwright" in said:
        return said[:300]
    return "" if code != 2 or re.fullmatch(r"fitwright: [^\n]+[.?]\n", said) else f"no sentence: {said[:200]!r}"


def main() -> int:
    """Run, print each new fault with its file, and return whether there was one."""
    n, seed = (int(word) for word in [*sys.argv[1:3], *("300", "1")[len(sys.argv[1:3]) :]])
    folder, draw = Path(tempfile.mkdtemp(prefix="by-command-")), random.Random(seed)  # noqa: S311  a seeded draw
    sound, codes, faults = sound_files(folder / "sound"), Counter[int](), 0
    job = folder / "heron" / "job.toml"  # a copy: some commands write into it
    shutil.copytree(sound["job"][1].parent, job.parent)
    ended(["ledger", str(job.with_name("other.db")), "init"], folder / "init.said")
    for number in range(n):
        kind = draw.choice(tuple(COMMANDS))
        source = draw.choice(sound[kind])
        path = folder / str(number) / source.name
        path.parent.mkdir()
        data = mutated(source.read_bytes(), draw)
        if kind == "job":  # its meshes stand where they stood
            data = re.sub(rb'"([\w/-]+\.(stl|3mf|svg)")', b'"' + bytes(source.parent) + rb"/\1", data)
        path.write_bytes(data)
        code, said = ended(COMMANDS[kind](path, job), path.with_suffix(".said"))
        codes[code] += 1
        if told := wrong(code, said):
            faults += 1
            print(f"{kind} {path}: {told}", flush=True)
    print(f"{n} files by the command, seed {seed}, ended {dict(codes)}: {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

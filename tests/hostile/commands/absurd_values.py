"""``python -m tests.hostile.commands.absurd_values [COMMAND] [EACH_N] [FILE]...``: absurd values under every key, by the command line.

Each ends in one sentence and 2, or in a verdict and 0 or 1. What was taken is listed by key, for a person to look
at: a value that cannot be and is judged in silence is how a wrong "go" begins.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.hostile.absurd import values_for
from tests.hostile.absurd_job import keys, lay, with_value
from tests.hostile.by_command import FIRST, ended, loaded, wrong
from tests.hostile.commands.scene import Case


def main() -> int:
    """Run, print each fault as it comes, and return whether there was one."""
    command = (sys.argv[1:] or ["check"])[0]
    each_n = int((sys.argv[2:] or ["99"])[0])
    place = Path(tempfile.mkdtemp(prefix="absurd-by-command-"))
    folder, told = place / "job", place / "told"
    folder.mkdir()
    os.environ |= {"TMPDIR": str(place), "COLUMNS": "100"}
    os.environ.setdefault("FITWRIGHT_CACHE", str(place / "cache"))
    tempfile.tempdir = None
    codes, faults = Counter[int](), 0
    try:
        loaded()
        lay(folder, own=True)
        words = [command, "job.toml", *(("-o", "out") if command in ("plan", "rebore") else ())]
        print(f"as it is: {ended(words, folder, told, FIRST).code}", flush=True)
        for number, (file, heading, key, takes) in enumerate(keys()):
            if sys.argv[3:] and file not in sys.argv[3:]:
                continue
            path = folder / file
            sound, values = path.read_text(encoding="utf-8"), values_for(takes)
            taken: list[str] = []
            turn = number * each_n % len(values)
            for value in (values[turn:] + values[:turn])[:each_n]:
                path.write_text(with_value(sound, heading, key, value), encoding="utf-8")
                case = Case(kind=file, path=path, words=words)
                end = ended(words, folder, told)
                codes[end.code] += 1
                if fault := wrong(case, end, {}):
                    faults += 1
                    print(f"{file} {heading} {key} = {value[:40]}: {fault}", flush=True)
                elif end.code != 2:
                    taken.append(f"{value[:20]} -> {end.code}, {end.cpu_s:.1f} s")
            path.write_text(sound, encoding="utf-8")
            if taken:
                print(f"taken: {file} {heading} {key}: {'; '.join(taken)}", flush=True)
        print(f"{sum(codes.values())} values by {command}, ended {dict(codes)}: {faults} faults")
    finally:
        shutil.rmtree(place, ignore_errors=True)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

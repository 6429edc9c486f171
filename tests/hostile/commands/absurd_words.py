"""``python -m tests.hostile.commands.absurd_words``: absurd words after every command that tells or asks something.

Each ends in one sentence and 2, or in an answer and 0 or 1; what was taken is listed, for a person to look at. A
refused word leaves the ledger byte for byte as it was.
"""

from __future__ import annotations

import os
import shutil
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

from planner.ledger import made, told
from tests.hostile.absurd_job import lay
from tests.hostile.by_command import ended, loaded, wrong
from tests.hostile.commands.scene import Case
from tests.ledger.telling import DAY, chapter, tell

NUMBERS = ("0", "-1", "1e-300", "1e-9", "1e9", "1e300", "inf", "nan", "9" * 400, "9" * 5000, "", "7,5", "0x10", "١٢")
TIMES = ("0h", "-1h", "1e9h", "99999999h", "9" * 5000 + "h", "", "h", "1h99", "nan", "٣h")
MOMENTS = ("0001-01-01", "9999-12-31T23:59:59", "2026-13-01", "9" * 5000, "", "12:30", "2026-12-01T18:30+99:00")
TEXTS = ("", " ", "x" * 5000, "a\nb", "\x1b[31m", "\u202eabc", "../../etc", "-", "💀", "=1+1", "\udc80")
PIECES = ("", "jaw", "jaw:0", "jaw:-1", "jaw:999999999", "jaw:1e9", "jaw:9" + "9" * 5000, ":1", "nobody:1", "jaw:nan")
LEDGER = ("--ledger", "sqlite:///book.db")
SAYS: tuple[tuple[list[str], dict[str, tuple[str, ...]]], ...] = (
    (["weighed", "S-1", "*"], {"": NUMBERS}),
    (["weighed", "*", "100"], {"": TEXTS}),
    (["weighed", "S-9", "500", "--material", "petg", "--colour", "*"], {"": TEXTS}),
    (["weighed", "S-9", "500", "--material", "*", "--colour", "green"], {"": TEXTS}),
    (["bought", "M3 nut", "*"], {"": NUMBERS}),
    (["bought", "*", "2"], {"": TEXTS}),
    (["done", "R-07.1"], {"--grams": NUMBERS, "--took": TIMES, "--spool": (*TEXTS, "S-1:nan", "S-1:-5", "S-1:1e9")}),
    (["done", "*"], {"": TEXTS}),
    (["failed", "R-07.1", "--cause", "loose"], {"--grams": NUMBERS, "--at": TIMES, "--lost": PIECES, "--spool": TEXTS}),
    (["failed", "R-07.1", "--at", "1h", "--cause", "*"], {"": TEXTS}),
    (["device", "R-07", "*"], {"": TEXTS}),
    (["device", "R-07", "spoilt"], {"--lost": PIECES}),
    (["device", "R-07", "complained", "*"], {"": TEXTS}),
    (["device", "R-07", "tested"], {"--when": MOMENTS, "--role": TEXTS}),
    (["note", "R-07", "*"], {"": TEXTS}),
    (["retired", "*"], {"": TEXTS}),
    (["nozzle", "bench-1", "*"], {"": NUMBERS}),
    (["measured", "bench-1", "--material", "petg", "--nozzle", "*", "--until", "2027-01-01"], {"": NUMBERS}),
    (["measured", "bench-1", "--material", "petg", "--nozzle", "0.4", "--until", "*"], {"": MOMENTS}),
)
"""Words of a command, and by option what it is given: an empty option puts the value in place of the star."""
ASKS: tuple[tuple[list[str], dict[str, tuple[str, ...]]], ...] = (
    (["check", "job.toml"], {"--scale": NUMBERS, "--do": NUMBERS, "--part": TEXTS}),
    (["strength", "job.toml"], {"--scale": NUMBERS, "--load": NUMBERS, "--part": TEXTS}),
    (["window", "job.toml"], {"--scale": NUMBERS}),
    (["size", "job.toml"], {"--scale": NUMBERS}),
    (["move", "job.toml"], {"--scale": NUMBERS, "--joint": TEXTS}),
    (["pattern", "job.toml", "-o", "out"], {"--scale": NUMBERS, "--paper": TEXTS, "--unit": TEXTS}),
    (["rebore", "job.toml", "-o", "out"], {"--scale": NUMBERS}),
    (["card"], {"-o": ("", "/dev/null", "/dev/full", "no/such/card.pdf", ".", "x" * 300), "--paper": TEXTS}),
)


def sayings() -> Iterator[tuple[bool, list[str]]]:
    """Yield whether a ledger is told, and the words of a command with one absurd one among them."""
    for tells, table in ((True, SAYS), (False, ASKS)):
        for words, options in table:
            for option, values in options.items():
                for value in values:
                    if "\x00" in value:
                        continue
                    put = [value if word == "*" else word for word in words]
                    yield tells, [*put, *((option, value) if option else ()), *(LEDGER if tells else ())]


def main() -> int:
    """Run, print each fault as it comes and what was taken, and return whether there was a fault."""
    place = Path(tempfile.mkdtemp(prefix="absurd-words-"))
    os.environ |= {"TMPDIR": str(place), "COLUMNS": "100"}
    os.environ.setdefault("FITWRIGHT_CACHE", str(place / "cache"))
    tempfile.tempdir = None
    codes, faults = Counter[int](), 0
    try:
        loaded()
        sound, folder = place / "book.db", place / "in"
        engine = made(f"sqlite:///{sound}")
        told(engine, [*chapter(), tell("started", "R-07.1", DAY)], DAY)
        engine.dispose()
        book = sound.read_bytes()
        for tells, words in sayings():
            shutil.rmtree(folder, ignore_errors=True)
            folder.mkdir()
            if tells:
                (folder / "book.db").write_bytes(book)
            else:
                lay(folder, own=False)
            case = Case(kind="words", path=folder / ("book.db" if tells else "job.toml"), words=words)
            end = ended(words, folder, place / "told")
            codes[end.code] += 1
            said = " ".join(word[:40] for word in words if word not in LEDGER)
            fault = wrong(case, end, {})
            if not fault and tells and end.code == 2 and case.path.read_bytes() != book:
                fault = "refused, and changed the ledger"
            if fault:
                faults += 1
                print(f"{said!r}: {fault}", flush=True)
            elif end.code != 2:
                print(f"taken: {said!r} -> {end.code}: {' '.join(end.out.split())[:110]!r}", flush=True)
        print(f"{codes.total()} commands ended {dict(codes)}: {faults} faults")
    finally:
        shutil.rmtree(place, ignore_errors=True)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())

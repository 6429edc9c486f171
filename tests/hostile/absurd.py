"""Every key of job and profiles at values that cannot be: ``python -m tests.hostile.absurd`` also checks and plans."""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from planner.errors import FitwrightError
from planner.job import read_job, read_limits, read_material, read_printer, read_settings
from planner.plan import make_plan, prepare
from planner.rules import check
from tests.hostile.absurd_job import keys, lay, with_value

DAY = date(2026, 12, 1)
NUMBERS = (
    *("0", "-1", "1e-300", "1e-9", "1e-6", "1e4", "1e6", "1e9", "1e300", "inf", "nan", "9" * 400, "9" * 5000),
    *("true", '"7"', "[7.0]", "{ value = 7 }", "2026-12-01"),
)
DAYS = ("0001-01-02", "1899-12-31", "9998-12-31", "2199-12-31T23:59:59", "9" * 5000, "12:30:00")
WORDS = ('""', '"' + "x" * 5000 + '"', "2026-12-01", "[]", "[[[]]]", "{ value = 1e-6 }")
SECONDS_MOST = 20.0
READERS: dict[str, Callable[[Path], object]] = {
    "job.toml": read_job,
    "own-printer.toml": lambda path: read_printer(path.name, path.parent),
    "own-material.toml": lambda path: read_material(path.name, path.parent),
    "own-settings.toml": lambda path: read_settings(path.name, path.parent),
    "own-limits.toml": lambda path: read_limits(path.name, path.parent),
}
"""By file: what reads it alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """One key at one value: whether it was taken, and what went wrong."""

    file: str
    heading: str
    key: str
    value: str
    taken: bool
    wrong: str


def values_for(takes: str) -> tuple[str, ...]:
    """Return absurd values for what a key takes, as a TOML file writes them."""
    if takes.startswith("day"):
        return DAYS
    if "[x, y, z]" in takes or "numbers" in takes or "[x, y]" in takes:
        n = 2 if "two" in takes else 4 if "degrees" in takes else 3
        lists = tuple(f"[{', '.join([value] * n)}]" for value in NUMBERS)
        return (*lists, *WORDS, *(NUMBERS if "number or" in takes else ()))
    if "number" in takes:
        return NUMBERS
    return WORDS


def tried(folder: Path, use: Callable[[Path], object] | None = None, *, each_n: int = 99) -> Iterator[Tried]:
    """Put every absurd value under every key, use the job, and yield what came of it; the files are put back.

    Without a use each file is only read. ``each_n``: so many values under each key, others under the next one.
    """
    lay(folder, own=use is not None)
    for file, read in READERS.items():  # sound before they are made absurd
        read(folder / file)
    for number, (file, heading, key, takes) in enumerate(keys()):
        path = folder / file
        sound = path.read_text(encoding="utf-8")
        values = values_for(takes)
        turn = number * each_n % len(values)
        for value in (values[turn:] + values[:turn])[:each_n]:
            path.write_text(with_value(sound, heading, key, value), encoding="utf-8")
            taken, wrong = _used(folder / "job.toml", use) if use else _used(path, READERS[file])
            yield Tried(file=file, heading=heading, key=key, value=value[:40], taken=taken, wrong=wrong)
        path.write_text(sound, encoding="utf-8")


def _used(path: Path, use: Callable[[Path], object]) -> tuple[bool, str]:
    """Use a job; return whether it was taken, and what is wrong with the answer."""
    begin = time.process_time()
    try:
        use(path)
    except FitwrightError as refused:
        told = str(refused)
        return False, "" if len(told) < 2700 and told.isprintable() else f"no sentence: {told[:90]}"
    except Exception as fault:  # noqa: BLE001  any other ending is what is looked for
        trace = fault.__traceback__
        while trace is not None and trace.tb_next is not None:
            trace = trace.tb_next
        at = f"{Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno}" if trace else ""
        return True, f"{type(fault).__name__} at {at}: {str(fault)[:80]}"
    spent = time.process_time() - begin
    return True, f"{spent:.0f} s" if spent > SECONDS_MOST else ""


def checked(path: Path) -> object:
    """Check a job."""
    ready = prepare(read_job(path), DAY)
    return check(ready.bound, ready.sizing.percent)


def planned(path: Path) -> object:
    """Plan a job."""
    return make_plan(prepare(read_job(path), DAY))


def main() -> int:
    """Run, print each new fault, and return whether there was one."""
    use = {"read": None, "check": checked, "plan": planned}[(sys.argv[1:] or ["check"])[0]]
    n, seen = Counter[str](), Counter[str]()
    for one in tried(Path(tempfile.mkdtemp(prefix="absurd-")), use):
        n["taken" if one.taken else "refused"] += 1
        if one.wrong and not seen[one.wrong]:
            print(f"{one.file} {one.heading} {one.key} = {one.value}: {one.wrong}", flush=True)
        seen[one.wrong] += bool(one.wrong)
    print(f"{sum(n.values())} values under {len(keys())} keys: {dict(n)}; {sum(seen.values())} faults")
    return 1 if sum(seen.values()) else 0


if __name__ == "__main__":
    sys.exit(main())

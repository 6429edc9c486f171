"""Write numbers into the ``[settings]`` table of a job file, and leave everything else in it as it stands."""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path

from planner.job.file.job_file import read_job
from planner.whole_file import whole

HEADER = re.compile(r"^\s*\[")
TABLE = re.compile(r"^\s*\[\s*settings\s*\]")


def with_settings(text: str, values: Mapping[str, float], note: str) -> str:
    r"""Return a job's text with settings put in: known keys in place with their comments kept, new ones below.

    >>> print(with_settings("[settings]\nbrim_mm = 3.0  # wide\n", {"brim_mm": 5.0}, "x"), end="")
    [settings]
    brim_mm = 5  # wide
    """
    lines, left = text.splitlines(), dict(values)
    start = next((k for k, line in enumerate(lines) if TABLE.match(line)), None)
    if start is None:
        lines += ["", f"[settings]  # {note}"]
        start = len(lines) - 1
    end = next((k for k in range(start + 1, len(lines)) if HEADER.match(lines[k])), len(lines))
    for k in range(start + 1, end):
        key = lines[k].split("=", 1)[0].strip()
        if key in left:
            after = re.match(r"[^#]*?(\s*#.*)?$", lines[k].split("=", 1)[1])
            lines[k] = f"{key} = {left.pop(key):g}" + ((after and after[1]) or "")
    while end > start + 1 and not lines[end - 1].strip():
        end -= 1
    lines[end:end] = [f"{key} = {value:g}" for key, value in left.items()]
    return "\n".join(lines) + "\n"


def write_settings(path: Path, values: Mapping[str, float], note: str) -> None:
    """Write settings into a job file; it is read back before it takes the old one's place.

    Raises
    ------
    JobError
        The new file would not load; the old one stays.
    """
    text = with_settings(path.read_text(encoding="utf-8"), values, note)
    with whole(path, path.stat().st_mode) as aside:
        aside.write_text(text, encoding="utf-8")
        read_job(aside)

"""A small job with every table that a job may have, and profiles of its own: what absurd values are put into."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from planner.job import key_tables, shipped
from tests.shapes import bored_plate, written

JOB = """[job]
name = "every table"
printer = "own-printer.toml"
material = "own-material.toml"
settings = "own-settings.toml"
limits = "own-limits.toml"
mesh_unit = "mm"

[size]
percent = 100.0

[[size.measure]]
name = "wrist"
kind = "width"
recipient_mm = 58.0
taken = 2026-10-02

[size.measure.device]
part = "arm"
station_percent = 10

[[part]]
name = "arm"
mesh = "arm.stl"
duty = "load"

[[part]]
name = "leg"
mesh = "leg.stl"
duty = "load"

[[hardware]]
name = "pivot"
kind = "machine-screw"
diameter_mm = 3.0
bore_mm = 3.4
fit = "turning"
joins = ["arm", "leg"]

[[hardware.other_bores]]
part = "leg"
bore_mm = 3.6

[[gap]]
between = ["arm", "leg"]
drawn_mm = 0.4

[[open]]
name = "window"
parts = ["leg"]
bore_mm = 8.0

[[joint]]
name = "elbow"
between = ["arm", "leg"]
how = "turns"

[[cord]]
name = "pull"
part = "arm"
diameter_mm = 1.0
drives = "leg"
path = ["arm:hole", "leg:[1, 2, 3]"]

[[strap]]
name = "strap"
part = "arm"
webbing_mm = 20.0

[[padding]]
part = "arm"
thickness_mm = 3.0
area_mm2 = 900.0

[[work]]
part = "arm"
kind = "drill"
to_mm = 3.6
drawn_mm = 3.4

[[place]]
part = "arm"
at_mm = [0, 0, 0]

[[point]]
part = "arm"
name = "hole"
at_mm = [1, 1, 1]

[hands]
finish_min = 10

[drive]
joint = "wrist"
arm_mm = 40.0

[[spool]]
material = "petg"
colour = "green"
left_g = 620.0

[use]
load_n = 10.0
kept = ["garden"]

[settings]
layer_height_mm = 0.2

[plan]
start = 2026-12-01T17:30:00
deadline = 2026-12-12
attended = ["Mon-Fri 17:30-22:30"]

[plan.weigh]
lost_g = 0.1

[[override]]
rule = "size.stale"
role = "lead"
reason = "measured again"
"""
PROFILES = {
    "printer": ("printers", "bench-220"),
    "material": ("materials", "petg"),
    "settings-profile": ("settings", "standard-0.4"),
    "limits": ("limits", "standard"),
}
"""By table of keys: the folder of profiles, and the shipped one that a user's own is copied from."""


def lay(folder: Path, *, own: bool) -> None:
    """Lay the job, its meshes and profiles into a folder; the job uses those profiles where ``own``, else shipped ones."""
    written(bored_plate(60, 16, 6, [(8, 8, 3.4, 48), (52, 8, 3.4, 48)]), folder / "arm.stl")
    written(bored_plate(40, 16, 6, [(8, 8, 3.4, 48), (28, 8, 8, 48)]), folder / "leg.stl")
    text = JOB
    for table, (kind, name) in PROFILES.items():
        file = f"own-{table.removesuffix('-profile')}.toml"
        shutil.copy(Path(str(shipped("profiles"))) / kind / f"{name}.toml", folder / file)
        text = text if own else text.replace(f'"{file}"', f'"{name}"')
    (folder / "job.toml").write_text(text, encoding="utf-8")


def keys() -> list[tuple[str, str, str, str]]:
    """Return file, heading, key and what it takes for every key that a person may write into a job or a profile."""
    found = []
    for table in key_tables():
        profile = table.name.split(".")[0]
        if table.file == "job.toml":
            file = "job.toml"
        elif profile in PROFILES:
            file = f"own-{profile.removesuffix('-profile')}.toml"
        else:
            continue  # shipped with the program alone
        heading = "" if table.heading.startswith("(") else table.heading
        found += [(file, heading, key.name, key.takes) for key in table.keys if not key.name.isupper()]
    return found


def with_value(text: str, heading: str, key: str, value: str) -> str:
    """Return a TOML text in which one key of one table holds a value, in place of what was there."""
    if "." in key:
        head, _, key = key.partition(".")
        heading = f"[{head}]"
    if heading and heading not in text:
        return f"{text}\n{heading}\n{key} = {value}\n"
    before, head, after = text.partition(heading) if heading else ("", "", text)
    inside = re.split(r"^(?=\[)", after, maxsplit=1, flags=re.MULTILINE)
    body = re.sub(rf"^{re.escape(key)} *=.*\n", "", inside[0], flags=re.MULTILINE)
    return (
        before
        + head
        + (body if body.startswith("\n") else "\n" + body).rstrip("\n")
        + f"\n{key} = {value}\n\n"
        + "".join(inside[1:])
    )

"""What a started file shows beside its tables is true: every example in it can be read."""

from __future__ import annotations

import re
from pathlib import Path

from planner.job.reference.job_tables import job_tables
from planner.job.start.start_notes import TAIL
from tests.conftest import MakeJob
from tests.shapes import cuboid

BARE = '[job]\nname = "x"\n[[part]]\nname = "another part"\nmesh = "a.stl"\n'
SHOWN = (
    "[[hardware]]",
    "[[work]]",
    "[[gap]]",
    "[[open]]",
    "ignore_bores",
    "skin_toward",
    "spares",
    "text or threads",
    "count",
)


def test_every_example_is_read(make_job: MakeJob, tmp_path: Path) -> None:
    """With the # taken out, the examples are a job that loads; everything that a person may state is among them."""
    lines = [line.removeprefix("# ") for line in TAIL.format(part="a").splitlines() if line.startswith("# ")]
    examples = [line for line in lines if re.match(r"[\[a-z_]+.*[\]=]", line) and not line.startswith("--")]
    keys = examples[: next(k for k, line in enumerate(examples) if line.startswith("[["))]
    tables = examples[len(keys) :]
    (tmp_path / "pad.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0H90V90H0Z"/></svg>')
    part = '[[part]]\nname = "a"\nmesh = "a.stl"\n' + "\n".join(keys)
    job = make_job(BARE + part + "\n" + "\n".join(tables) + "\n", a=cuboid(30, 20, 6))

    assert job.part("a").ignore_bores
    assert job.gaps
    assert job.left_open
    assert all(word in TAIL for word in SHOWN)


def test_every_table_of_a_job_is_shown_or_named() -> None:
    """Nobody has to guess that a table exists; those inside another table stand in its own reference."""
    every = {table.heading for table in job_tables()} - {"[job]", "[size]", "[[part]]"}

    assert {heading for heading in every if heading not in TAIL} <= {
        "[size.measure.device]",
        "[plan.weigh]",
        "[[hardware.other_bores]]",
    }

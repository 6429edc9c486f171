"""Write edits into a job file: whole or not at all, read back before it takes its place."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from planner.job.editing.moved_job import moved
from planner.job.file.edits import Edit, edited, source_text
from planner.job.file.job_file import read_job
from planner.job.job import Job
from planner.whole_file import whole


def write_edits(job: Job, edits: Sequence[Edit], note: str, target: Path | None = None) -> Path:
    """Write a job with edits made; comments stay, and paths are told from the new file's folder.

    Parameters
    ----------
    note
        Stands behind each value that is written.
    target
        The new file; None: the job's own, or ``job.toml`` in the folder that it was guessed from.

    Raises
    ------
    JobError, ProfileError
        The edited file would not load; what was there stays.
    """
    text, base = source_text(job)
    path = target or (job.path / "job.toml" if job.path.is_dir() else job.path)
    after = moved(edited(text, edits, note), base, path.parent)
    mode = path.stat().st_mode & 0o777 if path.exists() else 0o644
    with whole(path, mode) as aside:
        aside.write_text(after, encoding="utf-8")
        read_job(aside)
    return path

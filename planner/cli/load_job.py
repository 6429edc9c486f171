"""The job that a path on the command line names, with the values that options replace."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from planner.errors import CommandError, FitwrightError, JobError, nearest
from planner.job import Job, Language, job_of_folder, read_job, read_printer, with_changes


def load(
    path: Path,
    *,
    percent: float | None = None,
    printer: str | None = None,
    material: str | None = None,
    unit: str | None = None,
    language: Language | None = None,
) -> Job:
    """Return the job that a path names: a job file, a folder with a ``job.toml`` in it, or a folder of meshes.

    Raises
    ------
    JobError
        Where there is no such path.
    """
    if not path.exists():
        raise JobError(where=str(path), wrong="there is no such file or folder", todo="name a job.toml or a folder")
    if path.is_dir() and not (path / "job.toml").is_file():
        from planner.mesh import objects_in  # a second to load: an answer that is kept need not wait for it

        chosen = read_printer(printer or "bench-220", Path.cwd())
        job = job_of_folder(path, printer=chosen, mesh_unit=unit, objects_in=objects_in)
    else:
        job = read_job(path / "job.toml" if path.is_dir() else path)
        job = replace(job, mesh_unit=unit) if unit else job
    return with_changes(job, percent=percent, printer=printer, material=material, language=language)


def named(
    path: Path,
    *,
    several: bool,
    percent: float | None = None,
    printer: str | None = None,
    material: str | None = None,
    unit: str | None = None,
    language: Language | None = None,
) -> Job:
    """Return the job of one of several paths; what is wrong with it names the path, as all may be called job.toml."""
    try:
        return load(path, percent=percent, printer=printer, material=material, unit=unit, language=language)
    except FitwrightError as problem:
        if several and not problem.where.startswith(str(path)):
            problem.where = f"{path}: {problem.where.removeprefix(path.name).lstrip(': ')}".rstrip(": ")
        raise


def known_part(name: str, job: Job) -> str:
    """Return the name of a part of a job.

    Raises
    ------
    CommandError
        Where the job has no such part; the nearest name is told.
    """
    names = [part.name for part in job.parts]
    if name not in names:
        raise CommandError(where=f"--part {name}", wrong=f"no part is called '{name}'", todo=nearest(name, names))
    return name

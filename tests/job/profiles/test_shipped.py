"""Everything that is shipped is read: a file that no reader knows, or that cannot be read, is found here."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from planner.job import (
    read_environments,
    read_failure_rules,
    read_glossary,
    read_hands_on,
    read_limits,
    read_material,
    read_pose_weights,
    read_printer,
    read_settings,
    read_tables,
    rule_kinds,
    shipped,
)
from planner.job.body_motion import read_motions
from planner.job.profiles.body_sizes import read_bodies

FILES = sorted(path.relative_to(shipped("profiles")).as_posix() for path in shipped("profiles").rglob("*.toml"))
FOLDERS: dict[str, Callable[[str, Path], object]] = {
    "printers": read_printer,
    "materials": read_material,
    "settings": read_settings,
}
"""Readers of folders in which every file is one profile."""
WHOLE: dict[str, Callable[[], object]] = {
    "body.toml": read_bodies,
    "motion.toml": read_motions,
    "failures.toml": read_failure_rules,
    "glossary.toml": read_glossary,
    "hands_on.toml": read_hands_on,
    "environments.toml": read_environments,
    "pose.toml": read_pose_weights,
    "hardware": read_tables,
    "rules": rule_kinds,
}
"""Readers of one file, or of a folder as a whole."""


@pytest.mark.parametrize("file", FILES)
def test_every_shipped_profile_is_read(file: str) -> None:
    """By its folder's reader or its own; the kind of a new folder has to be added here."""
    folder, _, name = file.rpartition("/")
    if folder in FOLDERS:
        assert FOLDERS[folder](name.removesuffix(".toml"), Path())
    elif folder == "limits":
        assert read_limits(name.removesuffix(".toml"))
    else:
        assert WHOLE[folder or name]()


def test_what_is_shipped_lies_in_the_package_or_beside_it() -> None:
    """Both folders are found from a checkout as from a wheel."""
    assert len(FILES) > 20
    assert (shipped("sample_parts") / "heron" / "job.toml").is_file()

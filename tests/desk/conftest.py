"""A desk with the Heron on it, served to a browser."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from planner.desk import DeskFolder
from tests.desk.served import served

DAY = date(2026, 12, 1)


@pytest.fixture(name="address", scope="module")
def _address(heron: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[str, Path]]:
    """Serve a desk with the Heron on it."""
    folder = tmp_path_factory.mktemp("desk")
    shutil.copytree(heron.parent, folder, dirs_exist_ok=True)
    with served(DeskFolder(folder, lambda: DAY)) as url:
        yield url, folder

"""The street: rooms import from their left only, through their front door; files stay small and say what they are."""

from __future__ import annotations

import ast
import importlib
import statistics
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
PLANNER = ROOT / "planner"
STREET = [
    "job",
    "mesh",
    "survey",
    "assembly",
    "pose",
    "layers",
    "rules",
    "size",
    "rebore",
    "calibrate",
    "packing",
    "schedule",
    "supplies",
    "gcode",
]
AFTER = ["plan", "output", "desk", "cli"]
SHARED = ["errors", "finding", "sourced", "scale", "whole_file", "cache"]
FILES_OPENED = {"job", "mesh", "calibrate", "packing", "gcode", "output", "desk", "cli"}
OPENING = {"open", "read_bytes", "read_text", "write_bytes", "write_text", "mkstemp", "NamedTemporaryFile"}
UNITS = (
    "_mm",
    "_mm2",
    "_mm3",
    "_g",
    "_s",
    "_c",
    "_deg",
    "_percent",
    "_n",
    "_w",
    "_kg",
    "_min",
    "_mpa",
    "_mm_s",
    "_mm_s2",
    "_mm3_s",
    "_cm3",
    "_years",
    "_days",
    "_lines",
    "_share",
    "_hour",
    "_kwh",
    "_rad",
)
MODULES = sorted(path for path in PLANNER.rglob("*.py") if "shipped" not in path.parts)


def _room(path: Path) -> str:
    """Return the room or the top-level module that a file belongs to."""
    parts = path.relative_to(PLANNER).parts
    return parts[0] if len(parts) > 1 else path.stem


def _imports(path: Path) -> Iterator[str]:
    """Yield every module of ours that a file imports."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("planner"):
            yield node.module
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names if alias.name.startswith("planner"))


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PLANNER).as_posix())
def test_a_room_imports_only_from_its_left_and_by_the_front_door(path: Path) -> None:
    """No import points to the right, and none reaches past another room's ``__init__``."""
    room, order = _room(path), [*SHARED, *STREET, *AFTER, "__init__", "__main__"]
    assert room in order, f"{room} has no place in the street"
    for module in _imports(path):
        words = module.split(".")
        if len(words) == 1 or words[1] in SHARED:
            continue
        other = words[1]
        assert order.index(other) <= order.index(room), f"{path.name} imports {module} from its right"
        if other != room:
            assert len(words) == 2, f"{path.name} reaches past the front door of {other}: {module}"


@pytest.mark.parametrize("room", [*STREET, "plan", "output"])
def test_what_a_room_exports_exists_once(room: str) -> None:
    """``__all__`` is true, and names nothing twice (its order is the linter's)."""
    module = importlib.import_module(f"planner.{room}")

    assert all(hasattr(module, name) for name in module.__all__)
    assert len(set(module.__all__)) == len(module.__all__)


def test_files_are_small() -> None:
    """No file is longer than 300 lines, and the median is at most 120."""
    lengths = {
        path: len(path.read_text(encoding="utf-8").splitlines()) for path in [*MODULES, *ROOT.glob("tests/**/*.py")]
    }

    assert [path.name for path, n in lengths.items() if n > 300] == []
    assert statistics.median(n for path, n in lengths.items() if path in MODULES) <= 120


def test_there_is_no_drawer() -> None:
    """No file is called after being useful."""
    assert [p.name for p in MODULES if any(word in p.stem for word in ("util", "helper", "common", "misc"))] == []


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PLANNER).as_posix())
def test_files_clocks_and_chance_stay_where_they_belong(path: Path) -> None:
    """Files are opened in the rooms that own them, the clock is read and text printed in cli, chance is seeded."""
    room = _room(path)
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        if name in OPENING:
            assert room in FILES_OPENED | {"cache", "whole_file"}, f"{path.name} opens a file"
        if name in ("print", "today", "now", "time_ns"):
            assert room == "cli" or (name == "print" and path.parent.name == "terminal"), f"{path.name} calls {name}"
        if name == "default_rng":
            assert node.args, f"{path.name} draws unseeded numbers"


@pytest.mark.parametrize("path", MODULES, ids=lambda p: p.relative_to(PLANNER).as_posix())
def test_every_module_function_and_class_says_what_it_is(path: Path) -> None:
    """Docstrings everywhere, private functions too."""
    tree = ast.parse(path.read_text(encoding="utf-8"))

    assert ast.get_docstring(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("__"):
            inner = isinstance(node, ast.FunctionDef) and any(
                node in ast.walk(outer)
                for outer in ast.walk(tree)
                if isinstance(outer, ast.FunctionDef) and outer is not node
            )
            assert inner or ast.get_docstring(node), f"{path.name}: {node.name}"


def test_records_are_frozen_and_their_lengths_carry_units() -> None:
    """Every record of the rooms is frozen; float fields of the job's records name their unit."""
    for room in STREET:
        module = importlib.import_module(f"planner.{room}")
        for name in module.__all__:
            record = getattr(module, name)
            if isinstance(record, type) and is_dataclass(record):
                assert record.__dataclass_params__.frozen, name  # type: ignore[attr-defined]
    for name in ("Measure", "Hardware", "Cord", "Strap", "Padding", "Spool", "Use"):
        for field in fields(getattr(importlib.import_module("planner.job"), name)):
            if field.type in ("float", "float | None"):
                assert field.name.endswith(UNITS) or field.name in ("lever", "friction", "price_each"), (
                    name,
                    field.name,
                )


def test_the_top_level_is_what_it_should_be() -> None:
    """Seven entries, a licence, and dotfiles."""
    shown = {
        path.name for path in ROOT.iterdir() if not path.name.startswith(".") and path.name not in ("build", "dist")
    }
    meant = {"README.md", "DEVELOPERS.md", "pyproject.toml", "planner", "profiles", "sample_parts", "tests", "LICENSE"}

    assert shown - {"heron", "fitwright.egg-info"} == meant

"""The street: rooms import from their left only, through their front door; files stay small and say what they are.

Every test names all offenders at once. Those that are known stand in ``tests/data/architecture.toml``.
"""

from __future__ import annotations

import ast
import importlib
import statistics
from collections import Counter

import pytest

from tests.shapes import ROOT
from tests.street import FOUND, PLANNER, Module, known, modules_below, names_twice

STREET = [
    "job",
    "photo",
    "mesh",
    "survey",
    "assembly",
    "layers",
    "pose",
    "rules",
    "mechanism",
    "strength",
    "size",
    "rebore",
    "calibrate",
    "packing",
    "schedule",
    "supplies",
    "pattern",
    "gcode",
    "remedy",
    "ledger",
]
AFTER = ["plan", "output", "desk", "cli"]
SHARED = [
    "errors",
    "digits",
    "phrases",
    "finding",
    "sourced",
    "scale",
    "file_names",
    "whole_file",
    "whole_folder",
    "cache",
    "cores",
]
ORDER = [*SHARED, *STREET, *AFTER, "__init__", "__main__"]
FILES_OPENED = {
    "job",
    "photo",
    "mesh",
    "calibrate",
    "packing",
    "gcode",
    "ledger",
    "output",
    "desk",
    "cli",
    "cache",
    "whole_file",
    "whole_folder",
}
OPENING = {"open", "read_bytes", "read_text", "write_bytes", "write_text", "mkstemp", "NamedTemporaryFile"}
DRAWERS = ("util", "helper", "common", "misc")
GROWING = {
    "ChangedError",  # Python writes its traceback on it
    "FitwrightError",  # the same
    "PlannedSinceError",  # the same
    "ToldSinceError",  # the same
    "_Pieces",  # a mesh while its file is read
    "Laid",  # moves while a program is read
    "Path",  # a line while it is laid
    "Tape",  # what was noted while one answer is made
}
"""Dataclasses that grow while they are filled, and so are not frozen."""
WHOLE_FLOWS = {
    "gcode/test_honest_programs.py",  # programs that print what the plan means, by two ways of laying lines
    "gcode/test_program_faults.py",  # programs with one planted fault each
    "desk/test_desk_fuzz.py",  # every route, with what nobody ought to send
    "desk/test_desk_looks.py",  # the desk on a screen and a phone
    "desk/test_desk_page.py",  # the desk in a browser
    "desk/planning/test_planning_page.py",  # a chapter planned in a browser, on two pages
    "output/page/test_browser.py",  # the report in a browser
    "output/page/test_odd_pages.py",  # jobs that are hostile, broken or empty
    "output/bench/test_same_hardware.py",  # random jobs at five sizes: every place names the same hardware
    "packing/search/test_known_optima.py",  # problems with a published answer
    "packing/search/test_random_plates.py",  # random problems, judged apart
    "remedy/test_print_at.py",  # every size that is named, judged for the whole device
    "rules/test_sentences.py",  # every rule of the sample device, asked beside its turns
    "rules/questions/test_published_answers.py",  # folders of published meshes, their answers against a table made by hand
    "output/looks/test_page_looks.py",
    "output/looks/test_readme_picture.py",  # the page as somebody sees it, at three widths, dark, and printed
    "remedy/test_published_remedies.py",  # remedies of published meshes, written and judged from the file
    "cli/plan/test_same_bytes.py",  # one job planned twice under other circumstances
    "rebore/test_rebore_grid.py",  # parts at seven sizes: re-bored, written, read by others
    "rules/kinds/test_rule_kinds.py",  # every rule of every room has its kind
    "mechanism/test_strangers_ways.py",  # one hinge drawn in every way that strangers draw
    "hostile/test_bad_files.py",  # broken files of every kind
    "hostile/test_kills.py",  # programs killed at random moments
    "hostile/test_absurd_values.py",  # every key at values that cannot be
    "accuracy/test_accuracy.py",  # every outside reference in one table
    "hostile/test_mutants.py",  # damaged files before every reader
    "mechanism/test_heron_moves.py",  # the sample device, against a model in plain geometry
    "sample_parts/test_heron.py",  # the sample device
    "sample_parts/test_heron_stands.py",  # where its parts stand, and what joins them
    "schedule/test_several_jobs.py",  # several jobs against exhaustive search and the schedule of one job
    "survey/bores/test_bore_patterns.py",  # drawn bores of known truth over every pattern of triangles
    "survey/test_known_walls.py",  # solids of known least wall
    "survey/walls/test_published_walls.py",  # what is refused about published parts, against sections
    "survey/drawn/test_bores_in_plates.py",  # random plates, read back from a file
    "test_architecture.py",
    "test_plain_english.py",  # every text a user reads
    "test_readme.py",
    "test_sources.py",  # every source of every profile
}
"""Tests of more than one module; every other test file has the place and the name of the module that it tests."""


def _front_door(module: Module) -> list[str]:
    """Return the imports of a module that point to the right or past another room's ``__init__``."""
    if module.room not in ORDER:
        return [f"{module.place}: the room {module.room} has no place in the street"]
    found = []
    for name in module.imports():
        words = name.split(".")
        if len(words) == 1 or words[1] in SHARED:
            continue
        if ORDER.index(words[1]) > ORDER.index(module.room):
            found.append(f"{module.place} imports {name} from its right")
        elif words[1] != module.room and len(words) != 2:
            found.append(f"{module.place} reaches past the front door: {name}")
    return found


def test_a_room_imports_only_from_its_left_and_by_the_front_door() -> None:
    """No import points to the right, and none reaches past another room's ``__init__``."""
    assert [line for module in modules_below(PLANNER) for line in _front_door(module)] == []


def test_what_a_room_exports_exists_once() -> None:
    """``__all__`` is true, and names nothing twice (its order is the linter's)."""
    for room in [*STREET, "plan", "output"]:
        module = importlib.import_module(f"planner.{room}")

        assert [name for name in module.__all__ if not hasattr(module, name)] == []
        assert [name for name, n in Counter(module.__all__).items() if n > 1] == []


def test_files_are_small() -> None:
    """No file is longer than 300 lines, tests too, and the median module has at most 90."""
    every = [*modules_below(PLANNER), *modules_below(ROOT / "tests")]

    assert [f"{module.place}: {module.lines_n}" for module in every if module.lines_n > 300] == []
    assert statistics.median(module.lines_n for module in modules_below(PLANNER)) <= 90


def test_rooms_can_be_seen_at_a_glance() -> None:
    """No folder holds more than 15 files, no file is called after being useful, and no name stands in two places."""
    every = [*modules_below(PLANNER), *modules_below(ROOT / "tests")]
    counts = Counter(module.path.parent.relative_to(ROOT).as_posix() for module in every)

    assert {folder: n for folder, n in counts.items() if n > 15} == {}
    assert [str(m.place) for m in every if any(word in m.place.stem for word in DRAWERS)] == []
    assert names_twice() == []


@pytest.mark.parametrize("kind", FOUND)
def test_known_offenders_only_get_fewer(kind: str) -> None:
    """Functions of 20 branches at most, a unit in every float's name, a test beside every module: but for a list that may only get shorter."""
    found = set(FOUND[kind]())
    new = "".join(f'    "{one}",\n' for one in sorted(found - known(kind)))

    assert not new, f"new offenders under [{kind}]:\n{new}"
    assert sorted(known(kind) - found) == [], "mended: run python -m tests.street"


def test_files_clocks_and_chance_stay_where_they_belong() -> None:
    """Files are opened in the rooms that own them, the clock is read and text printed in cli, chance is seeded."""
    found = []
    for module in modules_below(PLANNER):
        for node in ast.walk(module.tree):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            prints = name == "print" and module.path.parent.name == "terminal"
            if name in OPENING and module.room not in FILES_OPENED:
                found.append(f"{module.place} opens a file")
            if name in ("print", "today", "now", "time_ns") and module.room != "cli" and not prints:
                found.append(f"{module.place} calls {name}")
            if name == "default_rng" and not node.args:
                found.append(f"{module.place} draws unseeded numbers")

    assert found == []


def test_compiled_code_is_loaded_when_it_is_called() -> None:
    """No function states its types to the compiler: that loads its machine code, or makes it, at import."""
    found = [
        f"{module.place}: {node.name}"
        for module in modules_below(PLANNER)
        for node in module.functions()
        for one in node.decorator_list
        if isinstance(one, ast.Call) and ast.unparse(one.func).endswith("jit") and one.args
    ]

    assert found == []


def test_every_module_function_and_class_says_what_it_is() -> None:
    """Docstrings everywhere, private functions too; a function inside another may do without."""
    found = []
    for module in modules_below(PLANNER):
        inner = {node for outer in module.functions() for node in ast.walk(outer) if node is not outer}
        named = [n for n in ast.walk(module.tree) if isinstance(n, ast.FunctionDef | ast.ClassDef) and n not in inner]
        found += [
            f"{module.place}: {node.name}"
            for node in named
            if not node.name.startswith("__") and not ast.get_docstring(node)
        ]
        if not ast.get_docstring(module.tree):
            found.append(str(module.place))

    assert found == []


def test_records_are_frozen() -> None:
    """Every dataclass of every room is frozen, but for those that are filled while something is read."""
    found = {
        record.name
        for module in modules_below(PLANNER)
        for record in module.records()
        if not any("frozen=True" in ast.unparse(one) for one in record.decorator_list)
    }

    assert found == GROWING


def test_tests_stand_where_their_modules_stand() -> None:
    """A test file has the place and name of a module, or is listed as a test of a whole flow."""
    modules = {module.place for module in modules_below(PLANNER)}
    tests = [m.place for m in modules_below(ROOT / "tests") if m.place.name.startswith("test_")]
    apart = {p.as_posix() for p in tests if p.with_name(p.name.removeprefix("test_")) not in modules}

    assert apart == WHOLE_FLOWS


def test_the_top_level_is_what_it_should_be() -> None:
    """Three texts, the project file, four folders, a licence, and dotfiles."""
    shown = {
        path.name for path in ROOT.iterdir() if not path.name.startswith(".") and path.name not in ("build", "dist")
    }
    texts = {"README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE"}
    meant = {*texts, "pyproject.toml", "planner", "profiles", "sample_parts", "tests"}

    assert shown - {"heron", "fitwright.egg-info"} == meant

"""Small faults put into physics and rules, and whether tests see them: ``python -m tests.bench.mutation [N] [SEED] [FILE|ROOM]...``.

A room stands for its modules that have a mirrored test, in an order that is drawn; rooms take turns. Mutants that no
test can tell from the module stand in ``tests/data/mutants.toml``, each with why, and are not tried again.

Each mutant is one module with one node changed: a comparison turned or its equality moved, plus for minus, times for
divided, a number a tenth larger, a ``min`` or ``max`` that passes its first word on, ``and`` for ``or``. It is judged by
the tests that mirror the module alone, in a fork of a parent that has loaded the libraries; nothing on disk changes.
"""

from __future__ import annotations

import ast
import importlib
import importlib.machinery
import multiprocessing
import os
import random
import resource
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, zip_longest
from pathlib import Path

from tests.shapes import ROOT

FORK = multiprocessing.get_context("fork")
SECONDS_MOST = 120
ALIKE = ROOT / "tests" / "data" / "mutants.toml"
"""By module: what was changed into what, and why nothing that a person could see changes with it."""
LIBRARIES = [
    "numpy",
    "scipy.optimize",
    "scipy.spatial",
    "shapely",
    "trimesh",
    "numba",
    "sqlalchemy",
    "tomlkit",
    "pytest",
    "rich",
    "typer",
    "PIL",
    "ortools",
]
FILES = (
    *(f"rules/fit/{name}.py" for name in ("bed_size", "cord_force", "heat_over", "bores/bore_case", "bores/bore_edge")),
    *(f"rules/fit/{name}.py" for name in ("bores/worked_bore", "bores/peg_tight", "walls/thin_wall_rule")),
    *(f"rules/fit/strength/{name}.py" for name in ("joint_stress", "strength_ratio", "lasting_strength", "bore_force")),
    *(f"strength/{name}.py" for name in ("criterion", "beam/cut_stress", "beam/torsion", "beam/skin_and_core")),
    *(
        f"mechanism/force/{name}.py"
        for name in ("friction", "balance", "body_drive", "elastic", "pull_range", "loop_balance")
    ),
    *(f"schedule/{name}.py" for name in ("calendar/timetable", "calendar/weekly_spans", "calendar/three_clocks")),
    *(f"schedule/{name}.py" for name in ("risk/failure_cost", "risk/failure_ratio", "risk/simulate")),
)
"""What a wrong answer would cost most in: most of it pure arithmetic."""
TURNED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE,
    ast.LtE: ast.Lt,
    ast.Gt: ast.GtE,
    ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot,
    ast.IsNot: ast.Is,
}
OTHER: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
}
AGAINST: dict[type[ast.cmpop], type[ast.cmpop]] = {ast.Lt: ast.GtE, ast.LtE: ast.Gt, ast.Gt: ast.LtE, ast.GtE: ast.Lt}


@dataclass(frozen=True, slots=True, kw_only=True)
class Mutant:
    """One module with one change: its path below the root, its new source, and what was changed where."""

    path: str
    source: str
    about: str


def mutants(path: str, draw: random.Random) -> Iterator[Mutant]:
    """Yield the mutants of a module, in an order that is drawn."""
    text = (ROOT / path).read_text(encoding="utf-8")
    places = [node for node in ast.walk(ast.parse(text)) if _change(node, draw) is not None]
    draw.shuffle(places)
    for place in places:
        tree: ast.AST = ast.parse(text)
        same = next(n for n in ast.walk(tree) if type(n) is type(place) and _at(n) == _at(place))
        was = ast.unparse(same)
        new = _change(same, draw)
        tree = _Put(same, new).visit(tree)  # type: ignore[arg-type]
        now = ast.unparse(new)  # type: ignore[arg-type]
        line = place.lineno  # type: ignore[attr-defined]
        yield Mutant(path=path, source=ast.unparse(ast.fix_missing_locations(tree)), about=f"{line}: {was} -> {now}")


def _at(node: ast.AST) -> tuple[int, ...]:
    """Return where a node stands."""
    return tuple(getattr(node, name, -1) for name in ("lineno", "col_offset", "end_lineno", "end_col_offset"))


class _Put(ast.NodeTransformer):
    """Puts one node in another's place."""

    def __init__(self, old: ast.AST, new: ast.AST) -> None:
        self.old, self.new = old, new

    def visit(self, node: ast.AST) -> ast.AST:
        """Return the new node for the old one."""
        return self.new if node is self.old else self.generic_visit(node)


def _change(node: ast.AST, draw: random.Random) -> ast.AST | None:
    """Return a node with a fault in it; None where none is known."""
    match node:
        case ast.Compare(ops=[op]) if type(op) in TURNED:
            table = AGAINST if type(op) in AGAINST and draw.random() < 0.5 else TURNED
            return ast.Compare(left=node.left, ops=[table[type(op)]()], comparators=node.comparators)
        case ast.BinOp(op=op) if type(op) in OTHER and not isinstance(node.left, ast.Constant | ast.JoinedStr):
            return ast.BinOp(left=node.left, op=OTHER[type(op)](), right=node.right)
        case ast.Constant(value=float() as value) if value:
            return ast.Constant(value=value * 1.1)
        case ast.Call(func=ast.Name(id="min" | "max"), args=[first, _, *_]):
            return first
        case ast.BoolOp(op=op):
            return ast.BoolOp(op=ast.Or() if isinstance(op, ast.And) else ast.And(), values=node.values)
        case ast.UnaryOp(op=ast.USub() | ast.Not()):
            return node.operand
    return None


class _Finder(importlib.machinery.SourceFileLoader):
    """Loads a module from a text instead of its file, and writes no bytecode."""

    text = ""

    def get_code(self, fullname: str) -> object:  # type: ignore[override]
        """Compile the text."""
        return compile(self.text, self.get_filename(fullname), "exec")


def survives(mutant: Mutant) -> bool:
    """Return whether the mirrored tests pass all the same."""

    def work() -> None:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS_MOST, SECONDS_MOST))
        for number in (1, 2):
            os.dup2(os.open(os.devnull, os.O_WRONLY), number)
        name = mutant.path.removesuffix(".py").replace("/", ".")

        class Hook:
            """Finds the mutant before the file."""

            @staticmethod
            def find_spec(fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
                """Return how the mutant is loaded."""
                if fullname != name:
                    return None
                loader = _Finder(fullname, str(ROOT / mutant.path))
                loader.text = mutant.source.replace("cache=True", "cache=False")  # compiled code of before would be run
                return importlib.machinery.ModuleSpec(fullname, loader, origin=str(ROOT / mutant.path))

        sys.meta_path.insert(0, Hook)
        import pytest

        ended = pytest.main(
            [str(mirrored(mutant.path)), "-q", "-x", "-p", "no:xdist", "-p", "no:cacheprovider", "-o", "addopts="]
        )
        os._exit(int(ended))

    child = FORK.Process(target=work)
    child.start()
    child.join(SECONDS_MOST * 10)
    if child.is_alive():
        child.kill()
        child.join()
    return child.exitcode == 0


def mirrored(path: str) -> Path:
    """Return the test of a module."""
    part = Path(path).relative_to("planner")
    return ROOT / "tests" / part.with_name(f"test_{part.name}")


def modules(words: list[str], draw: random.Random) -> list[str]:
    """Return the modules that words name: files as they are, rooms by turns with their modules in a drawn order."""
    rooms = []
    for word in words:
        room = ROOT / "planner" / word
        found = sorted(path.relative_to(ROOT).as_posix() for path in room.rglob("*.py"))
        found = [path for path in found if mirrored(path).is_file()] if room.is_dir() else [f"planner/{word}"]
        draw.shuffle(found)
        rooms.append(found)
    return [path for path in chain.from_iterable(zip_longest(*rooms)) if path]


def main() -> int:
    """Draw, run, print each survivor as it is found, and by room how many were killed."""
    n, seed = (int(word) for word in [*sys.argv[1:3], *("60", "1")[len(sys.argv[1:3]) :]])
    draw, alive, tried = random.Random(seed), Counter[str](), Counter[str]()  # noqa: S311  a seeded draw
    files = modules(sys.argv[3:] or list(FILES), draw)
    alike = tomllib.loads(ALIKE.read_text(encoding="utf-8"))
    for library in LIBRARIES:
        importlib.import_module(library)
    streams = {path: mutants(path, draw) for path in files}
    sound: set[str] = set()
    while tried.total() < n and streams:
        for path in tuple(streams):
            mutant = next((one for one in streams[path] if _change_of(one) not in alike.get(path, {})), None)
            if mutant is None:
                del streams[path]
            elif tried.total() < n:
                if path not in sound and not survives(Mutant(path=path, source=(ROOT / path).read_text(), about="")):
                    print(f"{path}: its own tests do not pass as it is", flush=True)
                    del streams[path]
                    continue
                sound.add(path)
                room = Path(path).parts[1]
                tried[room] += 1
                if survives(mutant):
                    alive[room] += 1
                    print(f"survives: {path}:{mutant.about}", flush=True)
    for room, tried_n in tried.items():
        print(f"{room}: {tried_n - alive[room]} of {tried_n} killed")
    print(f"{tried.total()} mutants of {len(sound)} modules, seed {seed}: {tried.total() - alive.total()} killed")
    return 0


def _change_of(mutant: Mutant) -> str:
    """Return what was changed into what, without the line, which moves."""
    return mutant.about.partition(": ")[2]


if __name__ == "__main__":
    sys.exit(main())

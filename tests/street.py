"""The source as the architecture tests read it: every module parsed once, each kind of offence as a list of places.

What offends today and is not ours to mend at once stands in ``tests/data/architecture.toml``. That list may only get
shorter: ``python -m tests.street`` takes out whatever has been mended since.
"""

from __future__ import annotations

import ast
import tomllib
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from tests.shapes import DATA, ROOT

PLANNER = ROOT / "planner"
KNOWN = DATA / "architecture.toml"
BRANCHES_MOST = 20
BRANCHES = (
    *(ast.If, ast.IfExp, ast.For, ast.While, ast.ExceptHandler, ast.And, ast.Or),
    *(ast.comprehension, ast.match_case, ast.Assert),
)
"""What counts as a branch; a function without any has one."""
UNITS = frozenset(
    [
        "mm",
        "mm2",
        "mm3",
        "mm4",
        "cm3",
        "g",
        "kg",
        "s",
        "s2",
        "h",
        "min",
        "n",
        "w",
        "kwh",
        "c",
        "deg",
        "rad",
        "percent",
        "mpa",
        "px",
        "em",  # of type: as wide as it is high
        "pt",
        "years",
        "months",
        "days",
        "lines",
        "hour",
        "hours",
        "seconds",
        "grams",
    ]
)
"""Last words of a name that say in which unit it is: ``length_mm``, ``speed_mm_s``, ``percent``."""
RATIOS = frozenset(["share", "ratio", "factor"])
"""Last words of a name that say that it has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Module:
    """A module: its file, its place below its top folder, and its syntax tree, parsed once it is asked for."""

    path: Path
    place: Path
    lines_n: int

    @property
    def tree(self) -> ast.Module:
        """The syntax tree."""
        return _tree_of(self.path)

    @property
    def room(self) -> str:
        """The room, or the module itself where it lies beside the rooms."""
        return self.place.parts[0] if len(self.place.parts) > 1 else self.place.stem

    def functions(self) -> Iterator[ast.FunctionDef | ast.AsyncFunctionDef]:
        """Yield every function and method, nested ones too."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield node

    def records(self) -> Iterator[ast.ClassDef]:
        """Yield every dataclass."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.ClassDef) and any("dataclass" in ast.unparse(d) for d in node.decorator_list):
                yield node

    def imports(self) -> Iterator[str]:
        """Yield every module of ours that is imported."""
        for node in ast.walk(self.tree):
            if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("planner"):
                yield node.module
            elif isinstance(node, ast.Import):
                yield from (alias.name for alias in node.names if alias.name.startswith("planner"))


@cache
def modules_below(top: Path) -> tuple[Module, ...]:
    """Return every module below a folder."""
    found = []
    for path in sorted(top.rglob("*.py")):
        if "shipped" in path.relative_to(top).parts:
            continue
        text = path.read_text(encoding="utf-8")
        found.append(Module(path=path, place=path.relative_to(top), lines_n=len(text.splitlines())))
    return tuple(found)


@cache
def _tree_of(path: Path) -> ast.Module:
    """Parse a file once."""
    return ast.parse(path.read_text(encoding="utf-8"))


def branching() -> list[str]:
    """Return the functions with too many branches."""
    return sorted(
        f"{module.place.stem}.{node.name}"
        for module in modules_below(PLANNER)
        for node in module.functions()
        if 1 + sum(isinstance(inner, BRANCHES) for inner in ast.walk(node)) > BRANCHES_MOST
    )


def without_unit() -> list[str]:
    """Return the float fields of records and float parameters of public functions whose name says no unit."""
    found = set()
    for module in modules_below(PLANNER):
        for record in module.records():
            for field in record.body:
                if isinstance(field, ast.AnnAssign) and isinstance(field.target, ast.Name) and _float(field.annotation):
                    found.add(f"{record.name}.{field.target.id}")
        for node in module.tree.body:
            if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                every = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
                found |= {f"{node.name}.{one.arg}" for one in every if _float(one.annotation)}
    return sorted(one for one in found if not _says_unit(one.split(".")[1]))


def _float(annotation: ast.expr | None) -> bool:
    """Return whether an annotation is a plain number."""
    return annotation is not None and ast.unparse(annotation) in ("float", "float | None")


def _says_unit(name: str) -> bool:
    """Return whether a name's last word is a unit or says that there is none; one letter alone is a symbol."""
    return len(name) > 1 and name.rsplit("_", maxsplit=1)[-1] in UNITS | RATIOS


def unmirrored() -> list[str]:
    """Return the modules that do something and have no test file of their name in the same place.

    Records and tables alone promise nothing but their types, which mypy checks.
    """
    tests = {module.place for module in modules_below(ROOT / "tests")}
    return sorted(
        module.place.as_posix()
        for module in modules_below(PLANNER)
        if any(module.functions())
        and not module.place.stem.startswith("__")
        and module.place.with_name(f"test_{module.place.name}") not in tests
    )


def names_twice() -> list[str]:
    """Return the file names that stand in more than one place."""
    counts = Counter(m.place.name for m in modules_below(PLANNER) if not m.place.name.startswith("__"))
    return sorted(name for name, n in counts.items() if n > 1)


FOUND = {"branching": branching, "without_unit": without_unit, "unmirrored": unmirrored}
"""Offences with a list of those that are known."""


def known(kind: str) -> set[str]:
    """Return the known offenders of a kind; names without a unit by right are among them."""
    lists = tomllib.loads(KNOWN.read_text(encoding="utf-8"))[kind]
    return {one for names in lists.values() for one in names}


def pruned() -> str:
    """Return the list of known offenders without those that were mended."""
    kind, kept = "", []
    found = {name: set(offenders()) for name, offenders in FOUND.items()}
    for line in KNOWN.read_text(encoding="utf-8").splitlines(keepends=True):
        kind = line.strip()[1:-1] if line.startswith("[") else kind
        entry = line.strip().rstrip(",").strip('"')
        if not line.startswith(" ") or entry in found[kind]:
            kept.append(line)
    return "".join(kept)


if __name__ == "__main__":
    KNOWN.write_text(pruned(), encoding="utf-8")

"""Kinds of rules: one row for every rule that any code emits, and no code that asks a rule by its name."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from planner.errors import ProfileError
from planner.finding import Finding, Verdict
from planner.job import key_tables, kind_of, read_limits, rule_kinds
from planner.rules import by_severity
from tests.street import PLANNER, modules_below

KINDS = rule_kinds()
LIMITS = read_limits()
FAMILIES = "|".join(sorted({name.split(".")[0] for name in KINDS}))
NAME = re.compile(rf"({FAMILIES})\.[a-z_-]+")
FILES = re.compile(r".*\.(toml|json|html|pdf|svg|csv|css|js|md|txt|stl|dxf)")
TABLES = frozenset(table.name for table in key_tables())
"""Tables of files, such as size.measure, read like names of rules."""


@cache
def _trees() -> tuple[tuple[Path, ast.Module], ...]:
    """Return every file of the program with its syntax tree, parsed once."""
    return tuple((module.path, module.tree) for module in modules_below(PLANNER))


@cache
def _literals() -> tuple[tuple[Path, ast.Constant, list[ast.AST]], ...]:
    """Return every literal that reads like the name of a rule, with the nodes around it, nearest last."""

    def walk(node: ast.AST, above: list[ast.AST]) -> Iterator[tuple[ast.Constant, list[ast.AST]]]:
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            if NAME.fullmatch(node.value) and not FILES.fullmatch(node.value) and node.value not in TABLES:
                yield node, above
            return
        for child in ast.iter_child_nodes(node):
            yield from walk(child, [*above, node])

    return tuple((path, literal, above) for path, tree in _trees() for literal, above in walk(tree, []))


def _takers() -> set[str]:
    """Return the functions whose first argument is the name of a rule."""
    return {
        node.name
        for _, tree in _trees()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef) and [a.arg for a in node.args.args][:1] == ["rule"]
    }


def _emitted() -> set[str]:
    """Return the names that findings are made with: ``rule=``, ``rule: str =`` and first arguments called rule."""
    takers, found = _takers(), set()
    for _, tree in _trees():
        for node in ast.walk(tree):
            named: list[ast.expr | None] = []
            if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.target.id == "rule":
                named = [node.value]
            elif isinstance(node, ast.Call):
                called = getattr(node.func, "id", getattr(node.func, "attr", ""))
                named = [word.value for word in node.keywords if word.arg == "rule"]
                named += node.args[:1] if called in takers else []
            texts = [leaf for each in named if each is not None for leaf in ast.walk(each)]
            found |= {
                leaf.value
                for leaf in texts
                if isinstance(leaf, ast.Constant) and isinstance(leaf.value, str) and "." in leaf.value
            }
    return found


def test_every_rule_that_code_emits_has_a_row() -> None:
    """A finding of a rule that no row names cannot be made; a literal that reads like a rule is one."""
    assert _emitted() - set(KINDS) == set()
    tables = {table.name for table in key_tables()}  # of the reference of keys: printer.bed is no rule
    assert {literal.value for _, literal, _ in _literals()} - set(KINDS) - tables == set()


def test_every_row_is_emitted() -> None:
    """No row outlives its rule."""
    assert set(KINDS) - {literal.value for _, literal, _ in _literals()} == set()


def test_no_code_asks_a_rule_by_its_name() -> None:
    """Names of rules are given to findings and limits, never compared, listed or looked up."""
    asked = []
    for path, literal, above in _literals():
        loop = any(isinstance(node, ast.For) for node in above[-3:])  # a table of rules to emit, told one by one
        drawer = isinstance(above[-1], ast.Compare | ast.Dict | ast.Set | ast.Subscript | ast.List) or (
            isinstance(above[-1], ast.Tuple) and not loop
        )
        call = above[-1] if isinstance(above[-1], ast.Call) else None
        starts = call is not None and getattr(call.func, "attr", "") in ("startswith", "endswith", "get", "kind_of")
        if drawer or starts or isinstance(above[-1], ast.Assign):
            asked.append(f"{path.name}:{literal.lineno} {literal.value!r}")
    for path, tree in _trees():
        for node in ast.walk(tree):
            if isinstance(node, ast.Compare):
                sides = [side for side in (node.left, *node.comparators) if getattr(side, "attr", "") == "rule"]
                if len(sides) == 1:
                    asked.append(f"{path.name}:{node.lineno} {ast.unparse(node)}")

    assert asked == []


@pytest.mark.parametrize("name", KINDS)
def test_a_row_says_everything(name: str) -> None:
    """What is compared, the limit with a source, the remedy, and who may change it."""
    kind, limits = KINDS[name], LIMITS
    numbers = [getattr(limits, key) for key in kind.limit_keys] + list(limits.own.get(name, {}).values())

    assert kind.name == name
    assert kind.compares
    assert kind.remedy
    assert kind.changed_by
    assert kind.limit or numbers
    assert all(number.source for number in numbers)
    assert not kind.limit or kind.source
    assert ("limits" in kind.changed_by) == bool(numbers) or kind.limit
    assert bool(kind.moves) == bool(kind.sets)


def test_every_number_of_a_row_is_read() -> None:
    """A limit that no rule asks for would change nothing when a person changes it."""
    code = "\n".join(path.read_text(encoding="utf-8") for path, _ in _trees())
    unread = [
        f"{name} {key}"
        for name, kind in KINDS.items()
        for key in kind.limits
        if f'"{key}"' not in code or (f'limit("{name}"' not in code and f'limits.of("{name}"' not in code)
    ]

    assert unread == []


def test_an_unknown_rule_is_refused_with_the_nearest() -> None:
    """A name with a slip in it is told with the nearest known one."""
    with pytest.raises(ProfileError, match=r"did you mean 'bore\.tight'"):
        kind_of("bore.tigth")


def test_what_puts_all_in_doubt_comes_first() -> None:
    """A mesh in the wrong unit stands before every no-go that follows from it."""

    def told(rule: str, verdict: Verdict) -> Finding:
        return Finding(rule=rule, part="a", verdict=verdict, why="")

    found = by_severity(
        [
            told("wall.between", Verdict.GO),
            told("wall.thin", Verdict.NO_GO),
            told("mesh.unit", Verdict.HOLD),
            told("mesh.unit", Verdict.GO),
        ]
    )

    assert [f.rule for f in found] == ["mesh.unit", "wall.thin", "wall.between", "mesh.unit"]

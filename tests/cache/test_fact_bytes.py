"""Facts as bytes for a content key: what differs anywhere has other bytes, or is refused."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from enum import Enum, StrEnum
from pathlib import Path
from typing import NamedTuple

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString

from planner.cache import key_of
from planner.cache.fact_bytes import fact_bytes

LONG_N, MIDDLE_N = 2000, 1000
"""Numpy's ``repr`` leaves out the middle of an array of more than 1,000 numbers (NumPy manual, ``threshold``)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Held:
    """A record that holds anything."""

    what: object
    _within: object = None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Twin:
    """Another record of the same fields."""

    what: object
    _within: object = None


class Corner(NamedTuple):
    """A tuple with a name."""

    x: float
    y: float


class Left(Enum):
    """Members of one kind."""

    ONE = "one"


class Right(StrEnum):
    """Members of another kind that are texts, too."""

    ONE = "one"


def _numbers(middle: float) -> np.ndarray:
    numbers = np.zeros(LONG_N)
    numbers[MIDDLE_N] = middle
    return numbers


@pytest.mark.parametrize(
    "of",
    [
        lambda one: one,
        lambda one: {("jaw", 1): one},
        lambda one: {1: {"cap": [one]}},
        lambda one: Held(what=one),
        lambda one: {("jaw", 1): Held(what=({2.0: one},))},
        lambda one: Held(what=0, _within=one),
        lambda one: np.array([one, None], dtype=object),
        lambda one: frozenset({one.tobytes()}),
        lambda one: LineString(np.column_stack([np.arange(LONG_N), one])),
        lambda one: one.astype(np.complex128),
        lambda one: one.astype("U20"),
    ],
)
def test_what_differs_in_the_middle_has_another_key(of: Callable[[np.ndarray], object]) -> None:
    """Wherever 2,000 numbers stand, one of them in the middle makes another key, and the same ones the same."""
    assert key_of(of(_numbers(0.0))) == key_of(of(_numbers(0.0))) != key_of(of(_numbers(1.0)))


def test_facts_of_another_kind_have_another_key() -> None:
    """Records by the names of their types, members by those of their enums; no two of all these are one fact."""
    facts = [
        *(Held(what=1), Twin(what=1), {"what": 1, "_within": None}, Held(what=1.0), Held(what=True), Held),
        *(Left.ONE, Right.ONE, "one", Path("one"), b"one", fact_bytes("one")),
        *(Corner(1.0, 2.0), (1.0, 2.0), np.array([1.0, 2.0]), np.array([1.0, 2.0], dtype=np.float32)),
        *((1, (2, 3)), ((1, 2), 3), (1, 2, 3), {1, 2, 3}, {1: 2, 3: None}, ()),
        *("\udcff", "ÿ", 10**400, hex(10**400), 2**64 - 1, 2**64, -0.0, 0.0, float("nan"), None, ""),
        *(date(2026, 11, 30), datetime(2026, 11, 30), "2026-11-30", np.datetime64("2026-11-30")),
        *(np.ones((2, 3)), np.ones((3, 2)), np.asfortranarray(np.ones((2, 3))), np.longdouble(1) / 3, 1 / 3),
        *({"text": 1}, ("text", 1), ["record"], ("mapping",), key_of, fact_bytes),
        {(1, 2): "a", (3,): "b"},
    ]

    assert len({key_of(fact) for fact in facts}) == len(facts)
    assert key_of({(1, 2): "a", (3,): "b"}) == key_of({(3,): "b", (1, 2): "a"})
    assert key_of(np.float64(1.5), [1]) == key_of(1.5, (1,))


def test_what_has_no_content_is_refused() -> None:
    """A lambda, a plain object (whose repr is a place in memory), a generator: no key, and so no wrong answer."""
    for bare in (lambda: 1, object(), (n for n in "ab"), {"deep": [object()]}):
        with pytest.raises(TypeError, match="no content that a key could name"):
            key_of(bare)


FACTS = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text() | st.binary(),
    lambda inner: st.lists(inner).map(tuple) | st.dictionaries(st.integers() | st.text(), inner) | st.tuples(inner),
    max_leaves=4,
)


def _typed(fact: object) -> object:
    """Return a fact so that ``==`` tells 1, 1.0 and True apart, and 0.0 and -0.0."""
    if isinstance(fact, tuple):
        return tuple(map(_typed, fact))
    if isinstance(fact, dict):
        return frozenset((_typed(key), _typed(each)) for key, each in fact.items())
    return type(fact), repr(fact)


@settings(max_examples=25, deadline=None)
@given(FACTS, FACTS)
def test_keys_are_equal_where_facts_are(one: object, other: object) -> None:
    """Neither two facts with one key nor one fact with two, whatever they are made of."""
    assert (key_of(one) == key_of(other)) == (_typed(one) == _typed(other))

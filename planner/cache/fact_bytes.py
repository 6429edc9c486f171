"""Facts as bytes for a content key: two facts that differ anywhere never have the same, and none is told by its repr.

A ``repr`` will not do: numpy's leaves out the middle of an array of more than 1,000 numbers, shapely's the rest of a
long outline, and that of a plain object is a place in memory, which the next one may be given.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import is_dataclass
from datetime import date, time, timedelta
from enum import Enum
from functools import lru_cache, partial
from pathlib import PurePath
from types import BuiltinFunctionType, FunctionType, MethodType
from typing import Any

import msgspec
import numpy as np
from shapely.geometry.base import BaseGeometry

PLAIN = frozenset({float, bool, type(None), bytes})
"""Types that MessagePack tells from one another, to the last bit."""
WHOLE_LEAST, WHOLE_MOST = -(2**63), 2**64 - 1
"""Whole numbers that MessagePack carries."""
ITEM_BYTES = 8
"""The widest of numpy's single numbers that Python's own hold."""


def fact_bytes(fact: object) -> bytes:
    """Return bytes that tell a fact from all others, the same in every run: mappings and sets in the order of theirs.

    A record is told with the name of its type, and so are an enum's member and a named tuple; a list and a tuple of the
    same are one fact, and so are a number of numpy's and Python's own.

    Raises
    ------
    TypeError
        It holds what has no content to tell it by: a lambda, a generator, an open file.

    >>> fact_bytes(frozenset({"jaw", "cap"})) == fact_bytes(frozenset({"cap", "jaw"}))
    True
    >>> fact_bytes(1) == fact_bytes(1.0)
    False
    """
    return msgspec.msgpack.encode(_told(fact))


def _told(fact: object) -> object:
    """Return what carries a fact: plain values, and lists that begin with what they are a list of."""
    kind: Any = type(fact)
    if kind in PLAIN:
        return fact
    if isinstance(fact, Enum):
        return ["enum", _name(kind), fact.name]
    if isinstance(fact, str):
        return fact if fact.isascii() else ["text", fact.encode("utf-8", "surrogatepass")]
    if isinstance(fact, int):
        return fact if WHOLE_LEAST <= fact <= WHOLE_MOST else ["whole", hex(fact)]
    if isinstance(fact, tuple | list):
        return [_name(kind) if hasattr(fact, "_fields") else "", *map(_told, fact)]
    if is_dataclass(fact) and not isinstance(fact, type):
        return ["record", _name(kind), *[[name, _told(getattr(fact, name))] for name in _fields(kind)]]
    if isinstance(fact, Mapping):
        return ["mapping", *sorted([fact_bytes(key), fact_bytes(each)] for key, each in fact.items())]
    if isinstance(fact, AbstractSet):
        return ["set", *sorted(fact_bytes(each) for each in fact)]
    return _of_library(fact)


def _of_library(fact: object) -> object:
    """Return what carries a fact of a type of numpy, shapely or Python's own library."""
    if isinstance(fact, np.number | np.bool_) and fact.dtype.itemsize <= ITEM_BYTES and fact.dtype.kind in "biuf":
        return fact.item()
    if isinstance(fact, np.generic) or type(fact) is np.ndarray:
        return _array(np.asarray(fact))
    if isinstance(fact, BaseGeometry):
        return ["outline", fact.geom_type, fact.wkb]
    if isinstance(fact, PurePath):
        return ["path", _told(str(fact))]
    if isinstance(fact, float | bytes | bytearray):
        return float(fact) if isinstance(fact, float) else bytes(fact)
    if isinstance(fact, date | time | timedelta):
        return ["time", _name(type(fact)), repr(fact)]
    if isinstance(fact, partial):
        return ["partial", _told(fact.func), _told(fact.args), _told(fact.keywords)]
    return _code(fact)


def _array(fact: np.ndarray) -> object:
    """Return what carries an array: every number, and how they lie, as a sum of them hangs on it to the last bit."""
    if fact.dtype.hasobject:
        return ["objects", list(fact.shape), *map(_told, fact.ravel().tolist())]
    fortran = fact.flags.f_contiguous and not fact.flags.c_contiguous
    return ["array", str(fact.dtype.descr), list(fact.shape), fortran, fact.tobytes("F" if fortran else "C")]


def _code(fact: object) -> object:
    """Return the name of a type or of a function that holds nothing of its own; refuse anything else."""
    if isinstance(fact, MethodType):
        return ["method", _told(fact.__func__), _told(fact.__self__)]
    named: Callable[..., object] | None = fact if isinstance(fact, type | FunctionType | BuiltinFunctionType) else None
    if named is None or "<" in named.__qualname__:
        raise TypeError(f"{type(fact).__name__} has no content that a key could name")
    return ["code", _name(named)]


def _name(kind: type | Callable[..., object]) -> str:
    """Return the full name of a type or function."""
    return f"{kind.__module__}.{kind.__qualname__}"


@lru_cache(maxsize=1024)
def _fields(kind: type) -> tuple[str, ...]:
    """Return the names of a record's fields."""
    return tuple(kind.__dataclass_fields__)  # type: ignore[attr-defined]

"""Records as bytes and back."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import msgspec
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from planner.cache.record_bytes import as_bytes, from_bytes
from planner.finding import Verdict


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Inner:
    """A record with all that records hold."""

    at_mm: tuple[float, float, float] | None
    verdict: Verdict
    names: frozenset[str]
    shares: Mapping[tuple[str, int], float]
    way: Literal["x", "y"] = "x"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Outer:
    """A record with arrays."""

    inner: tuple[Inner, ...]
    points_mm: NDArray[np.float64]
    kinds: NDArray[np.uint8]


def _outer(points_mm: NDArray[np.float64]) -> Outer:
    inner = Inner(at_mm=(0.1, -0.0, np.inf), verdict=Verdict.HOLD, names=frozenset("a"), shares={("a", 1): np.nan})
    return Outer(inner=(inner,) * 2, points_mm=points_mm, kinds=np.arange(3, dtype=np.uint8))


@pytest.mark.parametrize("order", ["C", "F"])
def test_a_record_comes_back_as_it_was(order: Literal["C", "F"]) -> None:
    """Every number to its last bit, arrays in their own order in memory, so that sums of them come out the same."""
    points_mm = np.array([[1.0 / 3.0, np.nan], [-0.0, 5e-324]], order=order)
    was = _outer(points_mm)
    back = from_bytes(as_bytes(was), Outer)

    assert repr(back) == repr(was)
    assert back.points_mm.tobytes("A") == points_mm.tobytes("A")
    assert back.points_mm.flags.f_contiguous == points_mm.flags.f_contiguous
    assert back.points_mm.flags.writeable


def test_numbers_of_another_kind_are_refused() -> None:
    """An array of objects is never written; flags where lengths are declared are never read."""
    with pytest.raises(TypeError, match="ndarray has no bytes"):
        as_bytes(np.array([object()]))
    with pytest.raises(ValueError, match="not the array"):
        from_bytes(as_bytes(_outer(np.array([[True]]).view(np.uint8))), Outer)
    for head in (("|O", (1,), "C"), ("<f8", (9,), "C"), ("<f8", (1,), "Z"), ("no", (1,), "C"), ("<f8", (-1, 0), "C")):
        told = msgspec.msgpack.encode(head)
        planted = msgspec.msgpack.Ext(1, len(told).to_bytes(2, "big") + told + bytes(8))
        with pytest.raises(ValueError):
            from_bytes(msgspec.msgpack.encode(planted), NDArray[np.float64])


@given(st.binary(max_size=80))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """Whatever stands in a file, reading it ends with a record or with ``ValueError``."""
    known = as_bytes(_outer(np.zeros((2, 2))))
    for tried in (data, known[: len(data)] + data + known[2 * len(data) :]):
        try:
            assert isinstance(from_bytes(tried, Outer), Outer)
        except ValueError:
            continue

"""Records as bytes and back, by the types that they declare: reading builds nothing else and runs nothing.

MessagePack carries them (msgspec); an array of numbers is an extension of it, with its kind, shape and order.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any, Literal, get_args

import msgspec
import numpy as np

Order = Literal["C", "F"]
ARRAY_CODE = 1
"""Which of MessagePack's extensions is an array; the number is ours to choose."""
NUMBER_KINDS = "biuf"
"""Kinds of arrays that are carried: flags, whole numbers, fractions."""


def as_bytes(value: object) -> bytes:
    """Return a record's bytes: dataclasses, enums, tuples, mappings, texts, numbers and arrays of numbers.

    Raises
    ------
    TypeError
        It holds anything else.
    UnicodeEncodeError, OverflowError
        A text that is no Unicode, as some file names are, or a whole number of more than 64 bits.
    """
    return msgspec.msgpack.encode(value, enc_hook=_told)


def from_bytes(data: bytes | memoryview, kind: Any) -> Any:
    """Return the record of a kind that bytes tell.

    Raises
    ------
    ValueError
        They tell no such record; its own checks speak as ``ValueError``, too.
    """
    return _reader(kind).decode(data)


@lru_cache(maxsize=64)
def shape_of(kind: Any) -> bytes:
    """Return what a kind of record is made of, its fields by name and type: bytes of another shape are of another time.

    >>> shape_of(tuple[int, ...]) == shape_of(tuple[float, ...])
    False
    """
    return repr(msgspec.inspect.type_info(kind)).encode()


@lru_cache(maxsize=64)
def _reader(kind: Any) -> Any:
    """Return what reads one kind of record."""
    return msgspec.msgpack.Decoder(kind, ext_hook=_array, dec_hook=_checked)


def _told(value: object) -> object:
    """Return what carries a value that MessagePack does not know."""
    if isinstance(value, np.ndarray) and value.dtype.kind in NUMBER_KINDS:
        order: Order = "F" if value.flags.f_contiguous and not value.flags.c_contiguous else "C"
        head = msgspec.msgpack.encode((value.dtype.str, value.shape, order))
        return msgspec.msgpack.Ext(ARRAY_CODE, len(head).to_bytes(2, "big") + head + value.tobytes(order))
    if isinstance(value, np.generic):
        return value.item()
    raise TypeError(f"{type(value).__name__} has no bytes here")


def _array(code: int, data: memoryview) -> np.ndarray[Any, Any]:
    """Return an array from an extension's bytes; it may be written to, as one that was just computed."""
    if code != ARRAY_CODE:
        raise ValueError("an extension that is no array")
    ends = 2 + int.from_bytes(data[:2], "big")
    dtype, shape, order = msgspec.msgpack.decode(data[2:ends], type=tuple[str, tuple[int, ...], Order])
    try:
        numbers = np.dtype(dtype)
    except TypeError as error:
        raise ValueError("an array of no numbers") from error
    if numbers.kind not in NUMBER_KINDS:
        raise ValueError("an array of no numbers")
    return np.frombuffer(data, numbers, offset=ends).reshape(shape, order=order).copy(order)


def _checked(kind: Any, value: object) -> object:
    """Refuse what is no array of the declared numbers."""
    numbers = get_args(get_args(kind)[1])[0]  # ndarray[shape, dtype[numbers]]
    if not (isinstance(value, np.ndarray) and issubclass(value.dtype.type, numbers)):
        raise ValueError("not the array that is declared")  # noqa: TRY004  as the reader does
    return value

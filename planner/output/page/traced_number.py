"""A number that remembers how it came about: what a rule answers becomes data that a page can answer with, too.

A rule is a plain function of scale. Run once with a :class:`Traced` scale instead of a plain one, its answer holds,
in place of every number that depends on the scale, the sum that made it; and every comparison on the way is noted.
So each rule stays written once, in Python, and a page need only add, multiply and print.
"""

from __future__ import annotations

import operator
import re
from collections.abc import Callable
from dataclasses import dataclass, field
from numbers import Real
from typing import Any, NoReturn, cast

Code = tuple[float | str, ...]
"""A sum in postfix: numbers, ``"s"`` for the scale, and the names in ``OPERATIONS``."""
OPERATIONS: dict[str, Callable[[float, float], float]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
    "^": operator.pow,
}
COMPARISONS: dict[str, Callable[[float, float], bool]] = {
    "<": operator.lt,
    "<=": operator.le,
    ">": operator.gt,
    ">=": operator.ge,
    "==": operator.eq,
    "!=": operator.ne,
}
SPEC = re.compile(r"(\.\d+f|(\.\d+)?g|)")
"""Formats that the page can print, too."""
_MARK = re.compile("\ud800(\\d+)\ud801")
"""Stands in a text where a number will be; lone surrogates, which no text of a file can hold."""


class LostError(Exception):
    """The scale was used in a way that cannot be followed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A number in an answer: how it follows from the scale, and how it is printed (empty: as a number)."""

    code: Code
    spec: str = ""

    def value(self, s: float) -> float:
        """Return the number at a scale."""
        return value_of(self.code, s)


Field = str | float | bool | None | Slot | tuple["str | Slot", ...]
"""One field of an answer: as it is, or a number, or a text with numbers in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Guard:
    """A comparison that came out in one way."""

    left: Code
    sign: str
    right: Code
    outcome: bool

    def holds(self, s: float) -> bool:
        """Return whether it comes out the same way at another scale; not where the sum has no value there."""
        try:
            return COMPARISONS[self.sign](value_of(self.left, s), value_of(self.right, s)) is self.outcome
        except ZeroDivisionError:  # the rule goes another way there, or it would have no answer
            return False


@dataclass(slots=True)
class Tape:
    """What was noted while one answer was made."""

    slots: list[Slot] = field(default_factory=list)
    guards: list[Guard] = field(default_factory=list)

    def text(self, written: str) -> Field:
        """Return a text with its numbers as slots."""
        pieces = _MARK.split(written)
        if len(pieces) == 1:
            return written
        return tuple(
            self.slots[int(piece)] if index % 2 else piece for index, piece in enumerate(pieces) if piece or index % 2
        )


class Traced:
    """A number that notes what is done with it; whatever it cannot follow raises :class:`LostError`.

    It is no ``float`` on purpose: C code (``math.sqrt``, ``"%.2f"``, numpy) would read a float's value past its
    methods, and what was done with it would be lost in silence.
    """

    __slots__ = ("code", "tape", "value")
    __array_ufunc__ = None  # numpy's numbers hand over to the methods here

    def __init__(self, value: float, code: Code, tape: Tape) -> None:
        self.value, self.code, self.tape = value, code, tape

    def __deepcopy__(self, memo: dict[int, object]) -> Traced:
        """Return the number itself: it never changes."""
        return self

    def _with(self, sign: str, left: float | Traced, right: float | Traced) -> Traced:
        """Return the result of an operation, and how it came about."""
        value = OPERATIONS[sign](_bare(left), _bare(right))
        return Traced(value, (*_code(left), *_code(right), sign), self.tape)

    def _compared(self, sign: str, other: object) -> bool:
        """Note a comparison and return its outcome."""
        if sign in ("==", "!=") and not isinstance(other, (float, Traced, Real)):
            return sign == "!="
        outcome = COMPARISONS[sign](self.value, _bare(other))
        self.tape.guards.append(Guard(left=self.code, sign=sign, right=_code(other), outcome=outcome))
        return outcome

    def __add__(self, other: float | Traced) -> Traced:
        return self._with("+", self, other)

    def __radd__(self, other: float | Traced) -> Traced:
        return self._with("+", other, self)

    def __sub__(self, other: float | Traced) -> Traced:
        return self._with("-", self, other)

    def __rsub__(self, other: float | Traced) -> Traced:
        return self._with("-", other, self)

    def __mul__(self, other: float | Traced) -> Traced:
        return self._with("*", self, other)

    def __rmul__(self, other: float | Traced) -> Traced:
        return self._with("*", other, self)

    def __truediv__(self, other: float | Traced) -> Traced:
        return self._with("/", self, other)

    def __rtruediv__(self, other: float | Traced) -> Traced:
        return self._with("/", other, self)

    def __pow__(self, other: float | Traced, mod: None = None) -> Traced:
        return self._with("^", self, other)

    def __neg__(self) -> Traced:
        return self._with("*", self, -1.0)

    def __lt__(self, other: float | Traced) -> bool:
        return self._compared("<", other)

    def __le__(self, other: float | Traced) -> bool:
        return self._compared("<=", other)

    def __gt__(self, other: float | Traced) -> bool:
        return self._compared(">", other)

    def __ge__(self, other: float | Traced) -> bool:
        return self._compared(">=", other)

    def __eq__(self, other: object) -> bool:
        return self._compared("==", other)

    def __ne__(self, other: object) -> bool:
        return self._compared("!=", other)

    def __bool__(self) -> bool:
        return self._compared("!=", 0.0)

    def __hash__(self) -> int:
        return hash(self.code)

    def __format__(self, spec: str) -> str:
        if not SPEC.fullmatch(spec):
            raise LostError(f"the format {spec!r}")
        self.tape.slots.append(Slot(code=self.code, spec=spec or "r"))
        return f"\ud800{len(self.tape.slots) - 1}\ud801"

    def __str__(self) -> str:
        return format(self, "")

    def __repr__(self) -> str:
        raise LostError("a representation")

    def _lost(self, *_: object) -> NoReturn:
        """Say that the scale goes where it cannot be followed."""
        raise LostError("a conversion")

    __float__ = __int__ = __index__ = __round__ = __floor__ = __ceil__ = __trunc__ = __abs__ = _lost
    __mod__ = __rmod__ = __floordiv__ = __rfloordiv__ = __divmod__ = __rdivmod__ = __rpow__ = _lost


def _code(value: object) -> Code:
    """Return how a number came about; a plain one is itself."""
    if type(value) is float:
        return (value,)
    return value.code if isinstance(value, Traced) else (_bare(value),)


def _bare(value: object) -> float:
    """Return a number without its memory."""
    if type(value) is float:
        return value
    if isinstance(value, Traced):
        return value.value
    if isinstance(value, Real):
        return float(value)
    raise LostError(f"a sum with a {type(value).__name__}")


def value_of(code: Code, s: float) -> float:
    """Return what a sum comes to at a scale.

    >>> value_of((5.0, "s", "*", 0.2, "-"), 1.1)
    5.3
    """
    stack: list[float] = []
    for step in code:
        if isinstance(step, float):
            stack.append(step)
        elif step == "s":
            stack.append(s)
        else:
            right, left = stack.pop(), stack.pop()
            stack.append(OPERATIONS[step](left, right))
    return stack[0]


def printed(given: Field, s: float) -> object:
    """Return a field of an answer as it reads at a scale."""
    if isinstance(given, Slot):
        return given.value(s) if not given.spec else format(given.value(s), given.spec.removesuffix("r"))
    if isinstance(given, tuple):
        return "".join(str(printed(piece, s)) for piece in given)
    return given


def traced(answer: Callable[[float], dict[str, object]], s: float) -> tuple[dict[str, Field], list[Guard]]:
    """Return an answer near a scale with its numbers as slots, and the comparisons under which it holds.

    ``answer`` gives the fields of its answer at a scale by their names: texts, numbers, truths or None.
    """
    tape = Tape()
    found: dict[str, Field] = {}
    scale = cast("Any", Traced(s, ("s",), tape))  # to a rule it is a number like any other
    for key, value in answer(scale).items():
        if isinstance(value, Traced):
            found[key] = Slot(code=value.code)
        elif isinstance(value, str):
            found[key] = tape.text(value)
        elif value is None or isinstance(value, (bool, int, float)):
            found[key] = value
        else:
            raise LostError(f"a field of type {type(value).__name__}")
    return found, tape.guards

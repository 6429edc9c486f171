"""A doubt: something that the job does not state, with the answers that a person may give to it."""

from __future__ import annotations

from dataclasses import dataclass

from planner.job import Edit


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One answer to a doubt."""

    name: str
    """What an answer file says: ``"m3-screw"``."""
    text: str
    """A clause that completes "if …": ``"an M3 screw goes through"``."""
    edits: tuple[Edit, ...]
    """What the answer writes into the job file."""
    share: float
    """How likely it is by form, 0 to 1."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """One question that nobody has answered yet."""

    id: str
    """Stable and readable: ``"bores-3.2-through"``."""
    text: str
    """The question."""
    options: tuple[Option, ...]
    default: str
    """Name of the option that is taken where nobody answers."""
    features: tuple[tuple[str, str], ...]
    """Part and feature of everything that it is about, the feature empty for a whole part."""
    by_rule: bool = False
    """Whether the rule that it decides says so itself, and need not be asked under each answer."""

    def option(self, name: str) -> Option:
        """Return the option of that name; KeyError where there is none."""
        for option in self.options:
            if option.name == name:
                return option
        raise KeyError(name)

"""What stands under each field of a record."""

from __future__ import annotations

from dataclasses import dataclass

from planner.job.reference.field_text import field_texts


@dataclass(frozen=True)
class _Thing:
    """A thing."""

    bare: int
    told: float = 1.0
    """One sentence
    over two lines."""
    last: str = ""
    """The last one."""

    def method(self) -> str:
        """Say something else."""
        return self.last


def test_each_field_has_the_text_under_it_and_no_other() -> None:
    """A field without a text has none, and neither the record's own text nor a method's is taken for one."""
    assert field_texts(_Thing) == {"told": "One sentence over two lines.", "last": "The last one."}

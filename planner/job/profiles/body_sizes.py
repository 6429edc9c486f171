"""Published sizes of bodies: only to catch a slip of the unit on the unaffected side, never to judge a limb."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from planner.errors import ProfileError
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped

ADULT_YEARS = 19


@dataclass(frozen=True, slots=True, kw_only=True)
class BodySize:
    """One dimension of the body: 5th to 95th percentile in mm for children by completed years, and for adults."""

    name: str
    about: str
    """What is measured."""
    child_mm: tuple[tuple[int, float, float], ...]
    """Rows of age in completed years, 5th and 95th percentile."""
    adult_mm: tuple[float, float]
    """5th and 95th percentile of adults."""
    source: str
    """The tables it was taken from."""

    def usual_mm(self, age_years: float | None) -> tuple[float, float]:
        """Return the 5th and 95th percentile at an age; from the youngest child to adults where it is not stated."""
        rows = [row for row in self.child_mm if age_years is not None and row[0] == int(max(age_years, 2.0))]
        if rows:
            return rows[0][1], rows[0][2]
        if age_years is not None and age_years >= ADULT_YEARS:
            return self.adult_mm
        return min(row[1] for row in self.child_mm), self.adult_mm[1]


@cache
def read_bodies() -> dict[str, BodySize]:
    """Read the shipped dimensions, by name."""
    table = read_toml(shipped("profiles") / "body.toml", ProfileError)
    found = {}
    for name in table.raw:
        one = table.table(name)
        rows = one.rows("child_mm", 3)
        low, high = one.numbers("adult_mm", 2)
        found[name] = BodySize(
            name=name,
            about=one.text("about"),
            source=one.text("source"),
            child_mm=tuple((int(age), least, most) for age, least, most in rows),
            adult_mm=(low, high),
        )
        one.done()
    return found

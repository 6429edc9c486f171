"""The keys of ``chapter.toml``, table by table, as ``fitwright keys`` shows them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from planner.job import Attended, KeyTable, keys_of
from planner.schedule import MOVES_A_DAY

Amount = float
"""In the currency of its table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterRow:
    """The chapter as a whole."""

    ledger: str = ""
    """The ledger: a file beside this one, or the URL of a server."""
    moves_a_day: int = MOVES_A_DAY
    """Plates of the last plan that may move for each day late that this saves; 0: a plan is only added to."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonRow:
    """Somebody who works in the chapter."""

    code: str
    """A code, never a name."""
    roles: tuple[str, ...]
    """What the person does."""
    week_h: float | None = None
    """Hours a week that the person has for work by hand."""
    away: tuple[str, ...] = ()
    """Days away: "2026-12-24", or "2026-12-24/2027-01-02" with both ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrinterRow:
    """A printer of the chapter."""

    name: str
    """What the chapter calls it."""
    profile: str = ""
    """Its profile, a name or a file."""
    attended: tuple[Attended, ...] = ()
    """When somebody is there for it; left out: whenever the place is attended."""
    calibrated_until: date | None = None
    """The last day on which its profile is believed without a coupon."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CouponRow:
    """A coupon that was measured."""

    printer: str
    """The printer that it was printed on."""
    nozzle_mm: float
    """The nozzle that printed it."""
    material: str
    """The material that it was printed in."""
    until: date
    """The last day on which it is believed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SpoolRow:
    """A spool that is there."""

    id: str
    """What is written on it; two spools never share one."""
    material: str
    """Its material, by the name of a profile."""
    colour: str = "any"
    """Its colour; "any" feeds plates of all."""
    lot: str = ""
    """The maker's lot."""
    left_g: float | None = None
    """The filament that is left on it."""
    printer: str = ""
    """The printer that it is on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MoneyRow:
    """What there is, and what is paid beside material."""

    budget: Amount | None = None
    """What all devices together may cost."""
    currency: str = "EUR"
    """The currency of all amounts."""
    labour_per_h: Amount | None = None
    """Paid for an hour of work by hand."""
    wear_per_h: Amount | None = None
    """Laid aside for an hour of printing."""
    post_each: Amount | None = None
    """What sending one device costs."""
    reserve_percent: float | None = None
    """Kept of all for what nobody foresaw."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingRow:
    """How long a delivery takes."""

    lead_days: float | None = None
    """Days from an order to its arrival, of all items that state none of their own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemRow:
    """How long the delivery of one item takes."""

    name: str
    """The item, as the purchase list calls it."""
    lead_days: float
    """Days from its order to its arrival."""


ROWS: tuple[tuple[str, type], ...] = (
    ("[chapter]", ChapterRow),
    ("[[person]]", PersonRow),
    ("[[printer]]", PrinterRow),
    ("[[coupon]]", CouponRow),
    ("[[spool]]", SpoolRow),
    ("[money]", MoneyRow),
    ("[buying]", BuyingRow),
    ("[[buying.item]]", ItemRow),
)


def chapter_tables() -> tuple[KeyTable, ...]:
    """Return every table of a chapter's file."""
    from planner.ledger import ROLES  # noqa: PLC0415  a database's library, half a second to load: for those who need it

    return tuple(
        KeyTable(
            name=f"chapter.toml.{heading.strip('[]')}",
            heading=heading,
            file="chapter.toml",
            about=(row.__doc__ or "").strip(),
            keys=keys_of(
                row,
                named={"week_h": "hours_week"} if row is PersonRow else None,
                takes={"roles": f"list of {', '.join(ROLES)}"} if row is PersonRow else None,
                defaults={"profile": "its name"} if row is PrinterRow else None,
            ),
        )
        for heading, row in ROWS
    )

"""Tables of a ledger: the journal, and the tables of today that follow from it."""

from __future__ import annotations

from typing import Any

from sqlalchemy import JSON, Boolean, Column, DateTime, Float, Integer, MetaData, String, Table, insert, update
from sqlalchemy.engine import Connection

META = MetaData()

EVENT = Table(
    "event",
    META,
    Column("id", Integer, primary_key=True),
    Column("key", String(64), nullable=False, unique=True),  # whoever is not sure whether it was taken sends it again
    Column("at", DateTime, nullable=False),  # when it happened
    Column("known_at", DateTime, nullable=False),  # when the ledger learned of it
    Column("role", String(16), nullable=False),
    Column("kind", String(16), nullable=False),
    Column("subject", String(120), nullable=False),
    Column("body", JSON, nullable=False),
)
"""The journal: what was known when. Rows are only added; redaction alone changes one."""

JOB = Table(
    "job",
    META,
    Column("code", String(16), primary_key=True),  # of the recipient: never a name
    Column("state", String(16), nullable=False),  # open, fitted, handed, ended, forgotten
    Column("scale_percent", Float),
    Column("deadline", String(10)),
    Column("handed_at", DateTime),
)
MEASURE = Table(
    "measure",
    META,
    Column("job", String(16), primary_key=True),
    Column("n", Integer, primary_key=True),
    Column("kind", String(16), nullable=False),
    Column("length_mm", Float, nullable=False),
    Column("taken", String(10)),
)
DEVICE_PART = Table(
    "device_part",
    META,
    Column("job", String(16), primary_key=True),
    Column("part", String(120), primary_key=True),
    Column("n", Integer, nullable=False),
    Column("sha256", String(64), nullable=False),
)
OVERRIDE = Table(
    "override",
    META,
    Column("job", String(16), primary_key=True),
    Column("n", Integer, primary_key=True),
    Column("rule", String(60), nullable=False),
    Column("part", String(120), nullable=False),
    Column("role", String(60), nullable=False),
    Column("reason", String(500), nullable=False),
)
PERSON = Table(
    "person",
    META,
    Column("code", String(16), primary_key=True),
    Column("roles", JSON, nullable=False),
    Column("hours_week", Float),
    Column("away", JSON, nullable=False),
)
PRINTER = Table(
    "printer",
    META,
    Column("name", String(120), primary_key=True),
    Column("profile", String(500), nullable=False),
    Column("attended", JSON, nullable=False),
    Column("calibrated_until", String(10)),
    Column("nozzle_mm", Float),  # what is in it now; null: what its profile says
    Column("blocked", String(200)),  # why nothing is planned on it until its coupon is measured; null: it is not
)
COUPON = Table(
    "coupon",
    META,
    Column("printer", String(120), primary_key=True),
    Column("nozzle_mm", Float, primary_key=True),
    Column("material", String(60), primary_key=True),
    Column("until", String(10), nullable=False),  # the last day on which what it told is believed
)
COUPON_READ = Table(
    "coupon_read",
    META,
    Column("event", Integer, primary_key=True),
    Column("printer", String(120), nullable=False),
    Column("nozzle_mm", Float, nullable=False),
    Column("material", String(60), nullable=False),
    Column("lot", String(60), nullable=False),
    Column("taken", String(10), nullable=False),
    Column("readings", JSON, nullable=False),  # kind, sizes as drawn, and what was measured or came out
)
SPOOL = Table(
    "spool",
    META,
    Column("id", String(60), primary_key=True),
    Column("material", String(60), nullable=False),
    Column("colour", String(60), nullable=False),
    Column("lot", String(60), nullable=False),
    Column("left_g", Float),
    Column("printer", String(120), nullable=False),
    Column("opened", DateTime),
    Column("retired", Boolean),  # it feeds no plate any more
)
ITEM = Table("item", META, Column("name", String(120), primary_key=True), Column("n", Float, nullable=False))
ORDER = Table(
    "item_order",
    META,
    Column("event", Integer, primary_key=True),
    Column("item", String(120), nullable=False),
    Column("n", Float, nullable=False),
    Column("at", DateTime, nullable=False),
)
PLATE = Table(
    "plate",
    META,
    Column("id", String(24), primary_key=True),
    Column("job", String(16), nullable=False),
    Column("state", String(16), nullable=False),  # planned, running, done, failed, withdrawn
    Column("printer", String(120), nullable=False),
    Column("material", String(60), nullable=False),
    Column("colour", String(60), nullable=False),
    Column("mass_g", Float),
    Column("duration_s", Float, nullable=False),
    Column("start", DateTime),
    Column("end", DateTime),
    Column("nozzle_mm", Float),  # of the settings that it was planned with
    Column("time_ratio", Float),  # real over bare planned time that is in duration_s already; null: none
    Column("mass_ratio", Float),  # the same of mass_g
    Column("spool", String(60)),  # the one that is planned to feed it whole; null: none is
)
PLACEMENT = Table(
    "placement",
    META,
    Column("plate", String(24), primary_key=True),
    Column("part", String(120), primary_key=True),
    Column("n", Integer, nullable=False),
    Column("made_as", String(120), nullable=False),  # the mesh and the size that it is printed from
    Column("places", JSON, nullable=False),  # of each copy x, y and turn on the bed, as plan.json gives them
)
PRINT = Table(
    "print",
    META,
    Column("event", Integer, primary_key=True),
    Column("plate", String(24), nullable=False),
    Column("job", String(16), nullable=False),
    Column("at", DateTime, nullable=False),
    Column("outcome", String(16), nullable=False),  # done, failed
    Column("cause", String(60), nullable=False),
    Column("ran_s", Float, nullable=False),
    Column("used_g", Float),
    Column("printer", String(120), nullable=False),
    Column("spool", String(60), nullable=False),
    Column("lot", String(60), nullable=False),
    Column("role", String(16), nullable=False),
    Column("good", JSON, nullable=False),  # pieces by part that came off whole
    Column("took_s", Float),  # how long one that is done took, by a clock; null: nobody said
    Column("weighed_g", Float),  # what it took by a scale; null: nobody weighed
)
FED = Table(
    "fed",
    META,
    Column("event", Integer, primary_key=True),
    Column("n", Integer, primary_key=True),
    Column("spool", String(60), nullable=False),
    Column("lot", String(60), nullable=False),
    Column("used_g", Float),
)
FOLLOW_UP = Table(
    "follow_up",
    META,
    Column("job", String(16), primary_key=True),
    Column("due", String(10), primary_key=True),
)
DEVICE_LOG = Table(
    "device_log",
    META,
    Column("event", Integer, primary_key=True),
    Column("job", String(16), nullable=False),
    Column("at", DateTime, nullable=False),
    Column("what", String(16), nullable=False),  # tested, spoilt, asked, complained, repaired, ended
    Column("passed", Boolean),  # of a test
    Column("lost", JSON, nullable=False),  # pieces by part that are spoilt
    Column("made", JSON, nullable=False),  # the mesh and the size that each of them was printed from
    Column("text", String(2000), nullable=False),
)
NOTE = Table(
    "note",
    META,
    Column("event", Integer, primary_key=True),
    Column("job", String(16), nullable=False),
    Column("at", DateTime, nullable=False),
    Column("text", String(2000), nullable=False),
)
BACKUP = Table(
    "backup",
    META,
    Column("event", Integer, primary_key=True),
    Column("path", String(1000), nullable=False),
    Column("at", DateTime, nullable=False),
)
TODAY = tuple(table for table in META.sorted_tables if table is not EVENT)
"""The tables of today: emptied, they come out of the journal again as they were."""


def put(db: Connection, table: Table, **row: Any) -> None:
    """Write a row, in place of one that has its primary key."""
    keys = [column.name for column in table.primary_key]
    there = update(table).where(*(table.c[key] == row[key] for key in keys)).values(**row)
    if not db.execute(there).rowcount:
        db.execute(insert(table).values(**row))

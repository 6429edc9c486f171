"""Tables of a ledger in Parquet, for whoever counts over many results: typed columns, also where a table is empty."""

from __future__ import annotations

import json
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from sqlalchemy import JSON, Boolean, Column, DateTime, Float, Integer, Table, select
from sqlalchemy.engine import Engine

from planner.errors import LedgerError
from planner.ledger.tables import TODAY
from planner.whole_file import whole


def in_parquet(engine: Engine, folder: Path) -> tuple[Path, ...]:
    """Write every table of today as ``NAME.parquet``; moments are of the wall clock, nested values are JSON texts.

    Raises
    ------
    LedgerError
        Where the library that writes it is not installed.
    """
    if find_spec("pyarrow") is None:
        raise LedgerError(where="--parquet", wrong="pyarrow is not there", todo="pip install 'fitwright[tables]'")
    arrow, parquet = import_module("pyarrow"), import_module("pyarrow.parquet")  # optional: [tables] of pyproject.toml
    folder.mkdir(parents=True, exist_ok=True)
    with engine.begin() as db:
        every = {table: db.execute(select(table).order_by(*table.primary_key)).all() for table in TODAY}
    files = []
    for table, rows in every.items():
        columns = {
            column.name: arrow.array([_cell(row[n], column) for row in rows], _type(arrow, column))
            for n, column in enumerate(table.c)
        }
        files.append(folder / f"{table.name}.parquet")
        with whole(files[-1], 0o600) as aside:
            parquet.write_table(arrow.table(columns, schema=_schema(arrow, table)), aside)
    return tuple(files)


def _schema(arrow: Any, table: Table) -> Any:
    """Return a table's columns with their types."""
    return arrow.schema([arrow.field(column.name, _type(arrow, column)) for column in table.c])


def _type(arrow: Any, column: Column[Any]) -> Any:
    """Return the Parquet type of a column."""
    types = {DateTime: arrow.timestamp("us"), Float: arrow.float64(), Integer: arrow.int64(), Boolean: arrow.bool_()}
    return next((made for kind, made in types.items() if isinstance(column.type, kind)), arrow.string())


def _cell(value: Any, column: Column[Any]) -> Any:
    """Return a value as its column's type takes it."""
    if isinstance(column.type, JSON):
        return json.dumps(value, ensure_ascii=False, sort_keys=True)
    return value

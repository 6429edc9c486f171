"""Hardware tables: the stock sizes in ``profiles/hardware``."""

from __future__ import annotations

from functools import cache

from planner.errors import ProfileError
from planner.job.file.table import Table
from planner.job.file.toml_file import read_toml
from planner.job.profiles.shipped import shipped
from planner.job.profiles.stock_sizes import HardwareTables, StockSize
from planner.sourced import KINDS, Sourced


@cache
def read_tables() -> HardwareTables:
    """Read the shipped hardware tables, smallest size first; once, as a job is loaded again for every remedy."""
    folder = shipped("profiles") / "hardware"
    stock = read_toml(folder / "stock.toml", ProfileError)
    prices = stock.table("prices")
    source = prices.text("source")
    tables = HardwareTables(
        machine_screws=_sizes("machine-screws"),
        wood_screws=_sizes("wood-screws"),
        dowel_pins=_sizes("dowel-pins"),
        binding_posts=_sizes("binding-posts"),
        inserts=_sizes("inserts"),
        bearings=_sizes("bearings"),
        belts=_sizes("belts"),
        webbing_mm=_numbers(stock, "webbing_mm"),
        prices={key: prices.number(key) for key in prices.raw if key != "source"},
        prices_source=source,
    )
    prices.done()
    stock.done()
    return tables


def _sizes(name: str) -> tuple[StockSize, ...]:
    """Read one kind of hardware; numbers in a row share the file's source and kind."""
    table = read_toml(shipped("profiles") / "hardware" / f"{name}.toml", ProfileError)
    source = table.text("source")
    kind = table.word("kind", KINDS)
    lengths = _numbers(table, "lengths_mm")
    table.text("about")
    table.text("lengths_source")

    def plain(row: Table, key: str) -> Sourced | None:
        if not row.has(key):
            return None
        if isinstance(row.raw[key], dict):
            return row.sourced(key)
        value = row.number(key, above=True)
        return Sourced(value=value, low=value, high=value, kind=kind, source=source)

    sizes = []
    for row in table.tables("size"):
        diameter = plain(row, "diameter_mm")
        assert diameter is not None
        bores = _numbers(row, "bores_mm") if row.has("bores_mm") else ()
        sizes.append(
            StockSize(
                label=row.text("label"),
                diameter_mm=diameter,
                root_mm=plain(row, "root_mm"),
                bores_mm=tuple(Sourced(value=b, low=b, high=b, kind=kind, source=source) for b in bores),
                nut_flats_mm=plain(row, "nut_flats_mm"),
                nut_height_mm=plain(row, "nut_height_mm"),
                pitch_mm=plain(row, "pitch_mm"),
                locking_height_mm=plain(row, "locking_height_mm"),
                washer_mm=plain(row, "washer_mm"),
                washer_thick_mm=plain(row, "washer_thick_mm"),
                head_mm=plain(row, "head_mm"),
                head_high_mm=plain(row, "head_high_mm"),
                outside_mm=plain(row, "outside_mm"),
                width_mm=plain(row, "width_mm"),
                longest_mm=plain(row, "longest_mm"),
                lengths_mm=_numbers(row, "lengths_mm") if row.has("lengths_mm") else lengths,
            )
        )
        row.done()
    table.done()
    return tuple(sorted(sizes, key=lambda size: size.diameter_mm.value))


def _numbers(table: Table, key: str) -> tuple[float, ...]:
    """Return a list of numbers of any length."""
    table.has(key)
    value = table.raw.get(key)
    if not isinstance(value, list):
        table.refuse(key, "a list of numbers is needed", f"write {key} = [1.0]")
    return table.numbers(key, len(value), low=0.0)

"""Hardware: what the stock tables hold against the standards."""

from __future__ import annotations

from collections.abc import Iterator

from planner.job import read_tables
from planner.sourced import Sourced
from tests.accuracy.row import Row, table

SIZES = ("M3", "M4", "M5", "M6", "M8")
BEARINGS = ((3.0, 10.0, 4.0), (4.0, 13.0, 5.0), (5.0, 16.0, 5.0), (6.0, 19.0, 6.0), (8.0, 22.0, 7.0))
LOCKING_MM = {"M3": 4.5, "M4": 6.0, "M5": 6.8, "M6": 8.0}
GAUGES = (4, 6, 8, 10)
EXACT_MM = 1e-9


def _screw(label: str, field: str) -> float:
    """Return a number of a machine screw's row."""
    row = next(size for size in read_tables().machine_screws if size.label == label)
    number: Sourced = getattr(row, field)
    return number.value


def _bore(label: str, index: int) -> float:
    """Return a clearance bore: fine, medium or coarse."""
    return next(size for size in read_tables().machine_screws if size.label == label).bores_mm[index].value


def _width(bore_mm: float, outside_mm: float) -> float:
    """Return how wide the bearing of a bore and an outside is."""
    for size in read_tables().bearings:
        if (
            size.diameter_mm.value == bore_mm
            and size.outside_mm
            and size.outside_mm.value == outside_mm
            and size.width_mm
        ):
            return size.width_mm.value
    raise LookupError(bore_mm)


def _gauge(n: int) -> float:
    """Return the shank of a wood screw by its gauge."""
    return next(size for size in read_tables().wood_screws if size.label == f"#{n}").diameter_mm.value


def hardware_rows() -> Iterator[Row]:
    """Yield bores, nuts, washers, threads, bearings and wood screws."""
    bores = {row["size"]: row for row in table("iso273_clearance_m2_m10.csv")}
    metric = {row["size"]: row for row in table("fasteners_metric_m2_m8.csv")}
    for label in SIZES:
        for index, kind in enumerate(("fine", "medium", "coarse")):
            yield Row(
                source="iso273",
                what=f"{label} {kind} bore",
                expected=float(bores[label][kind]),
                unit="mm",
                within=EXACT_MM,
                ours=lambda label=label, index=index: _bore(label, index),  # type: ignore[misc]
            )
        for source, column, field, what in (
            ("iso4032", "nut_s", "nut_flats_mm", "nut across flats"),
            ("iso4032", "nut_m", "nut_height_mm", "nut height"),
            ("iso7089", "washer_d2", "washer_mm", "washer outside"),
            ("iso261", "pitch", "pitch_mm", "coarse pitch"),
        ):
            yield Row(
                source=source,
                what=f"{label} {what}",
                expected=float(metric[label][column]),
                unit="mm",
                within=EXACT_MM,
                ours=lambda label=label, field=field: _screw(label, field),  # type: ignore[misc]
            )
        yield Row(
            source="iso68",
            what=f"{label} root of the screw",
            expected=float(label[1:]) - 1.22687 * float(metric[label]["pitch"]),
            unit="mm",
            within=2e-3,
            ours=lambda label=label: _screw(label, "root_mm"),  # type: ignore[misc]
        )
    for label, high_mm in LOCKING_MM.items():
        yield Row(
            source="iso7040",
            what=f"{label} locking nut, greatest height",
            expected=high_mm,
            unit="mm",
            within=EXACT_MM,
            ours=lambda label=label: _screw(label, "locking_height_mm"),  # type: ignore[misc]
        )
    for bore_mm, outside_mm, width_mm in BEARINGS:
        yield Row(
            source="iso15",
            what=f"width of a bearing {bore_mm:g} x {outside_mm:g}",
            expected=width_mm,
            unit="mm",
            within=EXACT_MM,
            ours=lambda bore=bore_mm, outside=outside_mm: _width(bore, outside),  # type: ignore[misc]
        )
    for n in GAUGES:
        yield Row(
            source="b1861",
            what=f"shank of a #{n} wood screw",
            expected=25.4 * (0.060 + 0.013 * n),
            unit="mm",
            within=1e-3,
            ours=lambda n=n: _gauge(n),  # type: ignore[misc]
        )

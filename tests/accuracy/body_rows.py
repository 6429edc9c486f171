"""Bodies, places and materials: what the profiles hold against publications."""

from __future__ import annotations

import math
from collections.abc import Iterator
from pathlib import Path

from planner.job import Drive, read_bodies, read_environments, read_material
from planner.job.body_motion import read_motions
from planner.mechanism.force.body_drive import usual_mm
from tests.accuracy.row import Row, table

AGES = (3, 6, 9, 12, 15)
ADULTS = (("hand-length", "handlength"), ("hand-breadth", "handbreadth"), ("wrist-around", "wristcircumference"))
AAOS_DEG = {"wrist": (80.0, 70.0), "elbow": (150.0, 0.0), "shoulder": (180.0, 60.0)}


def _child(name: str, age: int, index: int) -> float:
    """Return the 5th or 95th percentile of a child's measure."""
    return next(row[index] for row in read_bodies()[name].child_mm if row[0] == age)


def body_rows() -> Iterator[Row]:
    """Yield measures of children and adults, ranges of motion, temperatures."""
    children = {int(row["age"]): row for row in table("snyder1977_child_hand_by_age.csv") if row["sex"] == "both"}
    for age in AGES:
        for index, percentile in ((1, "p5"), (2, "p95")):
            yield Row(
                source="snyder",
                what=f"hand length at {age}, {percentile}",
                expected=float(children[age][f"hand_length_{percentile}"]),
                unit="mm",
                within=1e-9,
                ours=lambda age=age, index=index: _child("hand-length", age, index),  # type: ignore[misc]
            )
    adults = {(row["sex"], row["measure"]): row for row in table("ansur2_hand_arm_summary.csv")}
    for name, column in ADULTS:
        for index, (sex, percentile) in enumerate((("female", "p5"), ("male", "p95"))):
            yield Row(
                source="ansur",
                what=f"{name} of adults, {sex} {percentile}",
                expected=float(adults[sex, column][percentile]),
                unit="mm",
                within=1e-9,
                ours=lambda name=name, index=index: read_bodies()[name].adult_mm[index],  # type: ignore[misc]
            )
    for joint, (flexed, extended) in AAOS_DEG.items():
        for index, (way, deg) in enumerate((("bent", flexed), ("stretched", extended))):
            yield Row(
                source="aaos",
                what=f"{joint} {way}",
                expected=deg,
                unit="deg",
                within=13.0,
                ours=lambda joint=joint, index=index: read_motions()[joint].mean_deg[index],  # type: ignore[misc]
            )
    yield Row(
        source="ryu",
        what="cable of a wrist in daily work, arm 40 mm",
        expected=40.0 * math.radians(80.0),
        unit="mm",
        within=0.6,
        ours=lambda: (usual_mm(Drive(joint="wrist", arm_mm=40.0)) or (math.nan,))[0],
    )
    for end, hot_c in (("low", 41.0), ("value", 68.0), ("high", 76.0)):
        yield Row(
            source="grundstein",
            what=f"inside a parked car, {end}",
            expected=hot_c,
            unit="C",
            within=1e-9,
            ours=lambda end=end: float(getattr(read_environments()["car"].hottest_c, end)),  # type: ignore[misc]
        )
    yield Row(
        source="loh",
        what="PETG prints from",
        expected=220.0,
        unit="C",
        within=1e-9,
        ours=lambda: read_material("petg", Path()).nozzle_c.low,
    )

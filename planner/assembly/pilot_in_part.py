"""How a piece of hardware sits in one part: a screw that cuts its thread in the last part has a pilot there."""

from __future__ import annotations

from dataclasses import replace

from planner.job import Hardware


def in_part(hardware: Hardware, part: str) -> Hardware:
    """Return the hardware as one of its parts sees it.

    >>> sizes = {"diameter_mm": 3.0, "bore_mm": 3.4, "pilot_mm": 2.5}
    >>> screw = Hardware(name="screw", kind="machine-screw", joins=("lid", "box"), **sizes)
    >>> in_part(screw, "box").fit, in_part(screw, "box").bore_mm, in_part(screw, "lid").bore_mm
    ('pilot', 2.5, 3.4)
    """
    if hardware.pilot_mm is None or part != hardware.joins[-1]:
        return hardware
    return replace(hardware, bore_mm=hardware.pilot_mm, fit="pilot", bores=None)

"""How a piece of hardware sits in one part: a pilot in the last one, or a bore that differs from the others'."""

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
    if hardware.pilot_mm is not None and part == hardware.joins[-1]:
        return replace(hardware, bore_mm=hardware.pilot_mm, fit="pilot", bores=None)
    for one in hardware.other_bores:
        if one.part == part:
            fit, bores = one.fit or hardware.fit, None if one.bore_mm else hardware.bores
            return replace(hardware, bore_mm=one.bore_mm or hardware.bore_mm, fit=fit, bores=bores)
    return hardware

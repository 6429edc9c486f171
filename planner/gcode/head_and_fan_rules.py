"""Rules about the head's motion and the fan: reach, what the nozzle runs into, cooling, and words read in two ways."""

from __future__ import annotations

import numpy as np

from planner.finding import Finding, Verdict
from planner.gcode.expected import Expected
from planner.gcode.program_finding import compared_finding
from planner.gcode.program_measures import Measured


def motion_findings(measured: Measured, expected: Expected) -> list[Finding]:
    """Return the findings of all motion rules."""
    return [_reach(measured, expected), *_strikes(measured, expected), _fan(measured, expected), *_doubts(measured)]


def _reach(measured: Measured, expected: Expected) -> Finding:
    """Compare every place that the head is sent to with the bed: beside it, above it, and below its surface."""
    bed, limits = expected.printer.bed, expected.limits
    park, dip = (limits.of("program.reach", key).value for key in ("beside_mm", "below_mm"))
    low, high = measured.reach_mm
    ends = (*bed.size_mm, bed.height_mm)
    past = [
        *((max(-float(low[k]), float(high[k]) - ends[k]), "XY"[k], float(low[k]), float(high[k])) for k in range(2)),
        (float(high[2]) - ends[2], "Z", 0.0, float(high[2])),
    ]
    over, axis, least, most = max(past)
    into = -float(low[2])
    if into > dip:
        return compared_finding(
            "program.reach",
            wrong=True,
            measured=float(low[2]),
            limit=0.0,
            unit="mm",
            why=f"the head is sent to Z{low[2]:g}: {into:.2f} mm into the bed",
            remedy="take the move out, or set the zero of Z on the bed",
        )
    end = least if -least >= over - 1e-9 and axis != "Z" else most
    return compared_finding(
        "program.reach",
        wrong=over > park,
        measured=max(over, 0.0),
        limit=park,
        unit="mm",
        why=(
            f"the head is sent to {axis}{end:g}, {over:.1f} mm past the bed of {ends[0]:g} x {ends[1]:g} mm, "
            f"{ends[2]:g} mm high"
            if over > 0.0
            else "the head stays over the bed"
        ),
        remedy="take the move out, or choose the program's printer",
        caution="The head goes beside the bed: check that the printer reaches there." if 0.02 < over <= park else "",
    )


def _strikes(measured: Measured, expected: Expected) -> list[Finding]:
    """Say where the nozzle runs into what it has laid."""
    deep, x, y, z = (float(value) for value in measured.struck_mm)
    if deep <= expected.limits.of("program.strikes", "deep_mm").value:
        return []
    return [
        compared_finding(
            "program.strikes",
            wrong=True,
            measured=deep,
            limit=0.0,
            unit="mm",
            why=f"the nozzle passes X{x:.1f} Y{y:.1f} at Z{z:.2f}, {deep:.2f} mm below the top of what stands there",
            remedy="keep the order of the layers, and lift the nozzle before it crosses a finished piece",
        )
    ]


def _fan(measured: Measured, expected: Expected) -> Finding:
    """Compare the fan above the first layers with the settings."""
    settings = expected.settings
    rests, apart = (expected.limits.of("program.fan", key).value for key in ("rests_layers", "apart_percent"))
    above = settings.first_layer_height_mm.value + rests * settings.layer_height_mm.value + 1e-6
    later = measured.heights_mm > above
    laid = float(measured.volumes_mm3[later].sum())
    planned = settings.fan_percent.value
    if laid <= 0.0:
        return compared_finding(
            "program.fan",
            wrong=False,
            measured=None,
            limit=planned,
            unit="%",
            why=f"the program ends within its first {rests + 1:g} layers, where the fan may rest",
        )
    share = 100.0 * float(measured.fan_mm3[later].sum()) / laid
    never = not np.any(measured.fan_mm3 > 0.0)
    said = "never starts" if never else f"runs at {share:.0f} % above the first layers"
    return compared_finding(
        "program.fan",
        wrong=abs(share - planned) > apart or (never and planned > 0.0),
        worse=Verdict.HOLD,
        measured=share,
        limit=planned,
        unit="%",
        why=f"the fan {said}, planned {planned:g} %",
        remedy="set the fan as planned",
    )


def _doubts(measured: Measured) -> list[Finding]:
    """Say where machines may read the program in two ways."""
    doubts, found = measured.doubts, []
    if doubts.e_blocks_n:
        way = "G90 and G91 rule E, too" if doubts.e_by_g else "M82 and M83 alone rule E"
        found.append(
            compared_finding(
                "program.modes",
                wrong=False,
                measured=float(doubts.e_blocks_n),
                limit=0.0,
                unit="blocks",
                why=f"in {doubts.e_blocks_n} blocks E depends on whether G90 and G91 rule it after M82 or M83",
                caution=f"Read so that {way}: the other way, its beads suit the nozzle less. Check your printer's way.",
            )
        )
    if doubts.bare_n:
        found.append(
            compared_finding(
                "program.origin",
                wrong=True,
                worse=Verdict.HOLD,
                measured=float(doubts.bare_n),
                limit=0.0,
                unit="blocks",
                why=(
                    f"G92 without a letter moves the origin {doubts.bare_n} times: an error in RS-274, while printers "
                    "set all axes to zero"
                ),
                remedy="name the axes that G92 sets, as in G92 E0",
            )
        )
    if doubts.lost_n:
        found.append(
            compared_finding(
                "program.words",
                wrong=True,
                worse=Verdict.HOLD,
                measured=float(doubts.lost_n),
                limit=0.0,
                unit="blocks",
                why=f"{doubts.lost_n} blocks name places after a G word that is not known here; they were not followed",
                remedy="make the program with straight lines and arcs (G0 to G3) only",
            )
        )
    return found

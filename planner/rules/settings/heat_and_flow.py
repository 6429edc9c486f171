"""Speed, temperature and flow together: what melts, how hot that takes, and what material and printer allow."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.layers import bead_area_mm2
from planner.rules.settings.setting_rule import Case, SettingRule, compared
from planner.rules.settings.tidy_number import tidy_down, tidy_up
from planner.sourced import Sourced


def flow(case: Case) -> list[Finding]:
    """Compare the flow of each kind of line with what printer and material melt."""
    bead = _bead_mm2(case)
    return [_flow(case, "flow.melt", kind, speed.value, bead) for kind, speed in case.line_speeds.items()]


def first_flow(case: Case) -> list[Finding]:
    """Compare the first layer's flow with what melts."""
    settings = case.settings
    bead = bead_area_mm2(settings.line_width_mm.value, settings.first_layer_height_mm.value)
    return [_flow(case, "flow.first", "first layer", settings.first_layer_speed_mm_s.value, bead)]


def _flow(case: Case, rule: str, kind: str, speed_mm_s: float, bead_mm2: float) -> Finding:
    """Compare one flow: over what melts it is work, over the least that such hot ends melt a caution."""
    most, sure = case.melts_mm3_s, case.surely_melts_mm3_s
    asked = speed_mm_s * bead_mm2
    doubtful = asked <= most
    limit = sure if doubtful else most
    slower = f"{tidy_down(limit / bead_mm2, 1.0):g} mm/s or less"
    return compared(
        rule,
        kind,
        measured=asked,
        high=limit,
        unit="mm3/s",
        what=f"the flow of {kind} at {speed_mm_s:g} mm/s",
        remedy=f"print a test at this flow, or lower its speed to {slower}: not every such hot end melts it"
        if doubtful
        else f"lower its speed to {slower}",
        source=f"bead area {bead_mm2:.4f} mm² x speed; melts: {case.material.melt_rate_mm3_s.source}",
        worse=Verdict.GO if doubtful else Verdict.GO_WITH_WORK,
    )


def heat_for_flow(case: Case) -> list[Finding]:
    """Ask for more heat the more flows: a nozzle at the cool end of the range melts less.

    Up to ``cold_share`` of the flow that melts, the low end of the material's range is enough; from there on the
    temperature rises evenly to the usual one at the full flow. Where the printer does not reach it, speeds must fall.
    """
    usual, share = case.nozzle_c, case.limit("flow.heat", "cold_share")
    asked, most, bead = (case.settings.nozzle_c or usual).value, case.melts_mm3_s, _bead_mm2(case)
    fastest = max(speed.value for speed in case.line_speeds.values()) * bead / most
    hotter = min(max(fastest - share.value, 0.0) / (1.0 - share.value), 1.0)
    needed = usual.low + hotter * (usual.value - usual.low)
    if asked >= needed or needed <= case.printer.nozzle_max_c.value:
        return [
            compared(
                "flow.heat",
                "nozzle",
                measured=asked,
                low=needed,
                unit="C",
                what=f"the nozzle's temperature at {100 * fastest:.0f} % of the greatest flow",
                remedy=f"set nozzle_c to {tidy_up(needed, 1.0):g} or more, or print slower: cool, fast layers "
                "bond badly",
                source=share.source,
                worse=Verdict.GO_WITH_WORK,
            )
        ]
    warm = max(asked - usual.low, 0.0) / max(usual.value - usual.low, 1e-9)
    speed = (share.value + (1.0 - share.value) * warm) * most / bead
    return [
        compared(
            "flow.heat",
            kind,
            measured=own.value,
            high=speed,
            unit="mm/s",
            what=f"with the nozzle at {asked:g} °C ({case.printer.name} reaches {case.printer.nozzle_max_c.value:g} °C)"
            f", the speed of {kind}",
            remedy=f"lower its speed to {tidy_down(speed, 1.0):g} mm/s or less: cool, fast layers bond badly",
            source=share.source,
            worse=Verdict.GO_WITH_WORK,
        )
        for kind, own in case.line_speeds.items()
    ]


def temperatures(case: Case) -> list[Finding]:
    """Compare the temperatures of nozzle and bed with the material's range and the printer's reach."""
    settings, printer, nozzle, bed = case.settings, case.printer, case.nozzle_c, case.bed_c
    cold = nozzle.low - case.limit("nozzle.range", "stop_below_c").value
    return [
        _in_range("nozzle.range", "nozzle", settings.nozzle_c, nozzle, case, stop_c=cold),
        _in_reach("nozzle.reach", "nozzle", settings.nozzle_c, nozzle, printer.nozzle_max_c, case),
        _in_range("bed.range", "bed", settings.bed_c, bed, case),
        _in_reach("bed.reach", "bed", settings.bed_c, bed, printer.bed_max_c, case),
    ]


def _in_range(
    rule: str, what: str, stated: Sourced | None, usual: Sourced, case: Case, stop_c: float = float("-inf")
) -> Finding:
    """Compare a temperature with the material's range; under ``stop_c`` nothing comes out."""
    asked = (stated or usual).value
    return compared(
        rule,
        what,
        measured=asked,
        low=usual.low,
        high=usual.high,
        unit="C",
        what=f"the {what} for {case.material.name}",
        remedy=f"set the {what} to {usual.low:g} to {usual.high:g} °C",
        source=usual.source,
        worse=Verdict.NO_GO if asked < stop_c else Verdict.GO_WITH_WORK,
    )


def _in_reach(rule: str, what: str, stated: Sourced | None, usual: Sourced, most: Sourced, case: Case) -> Finding:
    """Compare a temperature with the most that the printer reaches.

    Where nobody stated one, and the material's range begins lower, the printer's most will do: work, no no-go.
    """
    within = usual.low <= most.value
    return compared(
        rule,
        what,
        measured=(stated or usual).value,
        high=most.value,
        unit="C",
        what=f"the {what} asked of {case.printer.name}",
        remedy=f"set {what}_c to {most.value:g} °C or less, but not under {usual.low:g} °C"
        if within
        else f"choose a material for {most.value:g} °C or less, or another printer",
        source=most.source,
        worse=Verdict.GO_WITH_WORK if within and stated is None else Verdict.NO_GO,
    )


def _bead_mm2(case: Case) -> float:
    """Return the area of a bead above the first layer."""
    return bead_area_mm2(case.settings.line_width_mm.value, case.settings.layer_height_mm.value)


RULES: tuple[SettingRule, ...] = (flow, first_flow, heat_for_flow, temperatures)

"""Settings against the printer and the material: what stops a print, or harms every part of it."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.layers import bead_area_mm2
from planner.rules.settings.setting_rule import PRACTICE, Case, SettingRule, compared
from planner.sourced import Sourced


def layer_height(case: Case) -> list[Finding]:
    """Compare the layer height with the nozzle."""
    low, high = (case.limit("layer.height", key) for key in ("low_nozzles", "high_nozzles"))
    nozzle = case.printer.nozzle_mm.value
    return [
        compared(
            "layer.height",
            "layer height",
            measured=case.settings.layer_height_mm.value,
            low=round(low.value * nozzle, 4),
            high=round(high.value * nozzle, 4),
            unit="mm",
            what="the layer height",
            remedy=f"set a layer height of {low.value * nozzle:.2f} to {high.value * nozzle:.2f} mm "
            f"for a {nozzle:g} mm nozzle",
            source=low.source,
            worse=Verdict.NO_GO,
        )
    ]


def first_layer(case: Case) -> list[Finding]:
    """Want a first layer thick enough to forgive the bed, thin enough to grip."""
    low, high = (case.limit("layer.first", key) for key in ("low_nozzles", "high_nozzles"))
    nozzle = case.printer.nozzle_mm.value
    return [
        compared(
            "layer.first",
            "first layer",
            measured=case.settings.first_layer_height_mm.value,
            low=round(low.value * nozzle, 4),
            high=round(high.value * nozzle, 4),
            unit="mm",
            what="the first layer",
            remedy=f"set a first layer of {low.value * nozzle:.2f} to {high.value * nozzle:.2f} mm",
            source=low.source,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def line_width(case: Case) -> list[Finding]:
    """Lines about as wide as the nozzle, and wider than a layer is high."""
    low, high = (case.limit("line.width", key) for key in ("low_nozzles", "high_nozzles"))
    nozzle, least = case.printer.nozzle_mm.value, case.limit("line.shape", "low_share")
    width = case.settings.line_width_mm.value
    return [
        compared(
            "line.width",
            "line width",
            measured=width,
            low=round(low.value * nozzle, 4),
            high=round(high.value * nozzle, 4),
            unit="mm",
            what="the line width",
            remedy=f"set a line width of {low.value * nozzle:.2f} to {high.value * nozzle:.2f} mm, "
            "or fit another nozzle",
            source=low.source,
            worse=Verdict.NO_GO,
        ),
        compared(
            "line.shape",
            "line width",
            measured=width / case.settings.layer_height_mm.value,
            low=least.value,
            unit="x",
            what="the line width over the layer height",
            remedy="set thinner layers or wider lines: a bead is wider than high, or it does not bond",
            source=least.source,
            worse=Verdict.GO_WITH_WORK,
        ),
    ]


def flow(case: Case) -> list[Finding]:
    """Compare the flow of each kind of line with what printer and material melt."""
    settings = case.settings
    most = case.melts_mm3_s
    bead = bead_area_mm2(settings.line_width_mm.value, settings.layer_height_mm.value)
    return [
        compared(
            "flow.melt",
            kind,
            measured=speed.value * bead,
            high=most,
            unit="mm3/s",
            what=f"the flow of {kind} at {speed.value:g} mm/s",
            remedy=f"lower its speed to {most / bead:.0f} mm/s or less",
            source=f"bead area {bead:.4f} mm2 x speed; melts: {case.material.melt_rate_mm3_s.source}",
            worse=Verdict.GO_WITH_WORK,
        )
        for kind, speed in case.line_speeds.items()
    ]


def temperatures(case: Case) -> list[Finding]:
    """Compare the temperatures of nozzle and bed with the material's range and the printer's reach."""
    settings, material, printer = case.settings, case.material, case.printer
    nozzle, bed = settings.nozzle_c or material.nozzle_c, settings.bed_c or material.bed_c
    return [
        _in_range("nozzle.range", "nozzle", nozzle, material.nozzle_c, material.name),
        _in_reach("nozzle.reach", "nozzle", nozzle, printer.nozzle_max_c, printer.name),
        _in_range("bed.range", "bed", bed, material.bed_c, material.name),
        _in_reach("bed.reach", "bed", bed, printer.bed_max_c, printer.name),
    ]


def _in_range(rule: str, what: str, asked_c: Sourced, usual_c: Sourced, material: str) -> Finding:
    """Compare a temperature with the material's range."""
    return compared(
        rule,
        what,
        measured=asked_c.value,
        low=usual_c.low,
        high=usual_c.high,
        unit="C",
        what=f"the {what} for {material}",
        remedy=f"set the {what} to {usual_c.low:g} to {usual_c.high:g} °C",
        source=usual_c.source,
        worse=Verdict.GO_WITH_WORK,
    )


def _in_reach(rule: str, what: str, asked_c: Sourced, most_c: Sourced, printer: str) -> Finding:
    """Compare a temperature with the most that the printer reaches."""
    return compared(
        rule,
        what,
        measured=asked_c.value,
        high=most_c.value,
        unit="C",
        what=f"the {what} asked of {printer}",
        remedy=f"choose a material for {most_c.value:g} °C or less, or another printer",
        source=most_c.source,
        worse=Verdict.NO_GO,
    )


def speeds(case: Case) -> list[Finding]:
    """Speeds and acceleration within what the printer does; more is only a wrong estimate elsewhere."""
    settings, printer, most = case.settings, case.printer, case.limit("speed.first", "most_mm_s")
    asked = {**case.line_speeds, "travel": settings.travel_speed_mm_s}
    fastest = max(asked, key=lambda kind: asked[kind].value)
    return [
        compared(
            "speed.reach",
            fastest,
            measured=asked[fastest].value,
            high=printer.speed_max_mm_s.value,
            unit="mm/s",
            what=f"the fastest speed, {fastest},",
            remedy=f"{printer.name} runs it at {printer.speed_max_mm_s.value:g} mm/s, and the plan counts with that",
            source=printer.speed_max_mm_s.source,
            worse=Verdict.GO,
        ),
        compared(
            "acceleration.reach",
            "acceleration",
            measured=settings.acceleration_mm_s2.value,
            high=printer.acceleration_max_mm_s2.value,
            unit="mm/s2",
            what="the acceleration",
            remedy=f"{printer.name} runs {printer.acceleration_max_mm_s2.value:g} mm/s2, and the plan counts with that",
            source=printer.acceleration_max_mm_s2.source,
            worse=Verdict.GO,
        ),
        compared(
            "speed.first",
            "first layer",
            measured=settings.first_layer_speed_mm_s.value,
            high=most.value,
            unit="mm/s",
            what="the first layer's speed",
            remedy=f"print the first layer at {most.value:g} mm/s or less, so that it grips",
            source=most.source,
            worse=Verdict.GO_WITH_WORK,
        ),
    ]


def material_needs(case: Case) -> list[Finding]:
    """Enclosure, nozzle wear, cooling and drying that the material asks for."""
    material, printer = case.material, case.printer
    fan = material.fan_percent
    return [
        compared(
            "material.enclosure",
            material.name,
            measured=float(printer.enclosed),
            low=float(material.needs_enclosure),
            unit="enclosure",
            what=f"the enclosure of {printer.name}",
            remedy=f"{material.name} warps and splits in the open: use an enclosed printer or another material",
            source=material.warp.source,
            worse=Verdict.HOLD,
        ),
        compared(
            "nozzle.wear",
            material.name,
            measured=float(printer.hardened_nozzle),
            low=float(material.abrasive),
            unit="hardened nozzle",
            what=f"the nozzle of {printer.name}",
            remedy="fit a hardened nozzle",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        ),
        compared(
            "fan.range",
            "fan",
            measured=case.settings.fan_percent.value,
            low=fan.low,
            high=fan.high,
            unit="%",
            what=f"the fan for {material.name}",
            remedy=f"set the fan to {fan.low:g} to {fan.high:g} %: too much splits layers, too little sags",
            source=fan.source,
            # Too little only looks worse; too much splits the part.
            worse=Verdict.GO_WITH_WORK if case.settings.fan_percent.value > fan.high else Verdict.GO,
        ),
        Finding(
            rule="material.dry",
            part="",
            feature=material.name,
            verdict=Verdict.GO,
            why=f"{material.name} {'takes up water' if material.dry_first else 'takes up little water'}",
            source="12 filaments: Aniskevich et al. 2023, doi 10.3390/polym15122600",
            caution="Dry the spool first." if material.dry_first else "",
        ),
    ]


RULES: tuple[SettingRule, ...] = (
    layer_height,
    first_layer,
    line_width,
    flow,
    temperatures,
    speeds,
    material_needs,
)

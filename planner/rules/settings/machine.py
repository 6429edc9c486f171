"""Settings against the printer and the material: what stops a print, or harms every part of it."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.layers import bead_area_mm2
from planner.rules.settings.setting_rule import PRACTICE, Case, compared

LAYER_SHARES = 0.25, 0.75
LAYER_SOURCE = "layer height 25 to 75 % of the nozzle (from memory)"
FIRST_SHARES = 0.4, 0.85
WIDTH_SHARES = 0.9, 1.6


def layer_height(case: Case) -> list[Finding]:
    """Layers between a quarter and three quarters of the nozzle."""
    nozzle, low, high = case.printer.nozzle_mm.value, *LAYER_SHARES
    return [
        compared(
            "layer.height",
            "layer height",
            measured=case.settings.layer_height_mm.value,
            low=round(low * nozzle, 4),
            high=round(high * nozzle, 4),
            unit="mm",
            what="the layer height",
            remedy=f"set a layer height of {low * nozzle:.2f} to {high * nozzle:.2f} mm for a {nozzle:g} mm nozzle",
            source=LAYER_SOURCE,
            worse=Verdict.NO_GO,
        )
    ]


def first_layer(case: Case) -> list[Finding]:
    """Want a first layer thick enough to forgive the bed, thin enough to grip."""
    nozzle, low, high = case.printer.nozzle_mm.value, *FIRST_SHARES
    return [
        compared(
            "layer.first",
            "first layer",
            measured=case.settings.first_layer_height_mm.value,
            low=round(low * nozzle, 4),
            high=round(high * nozzle, 4),
            unit="mm",
            what="the first layer",
            remedy=f"set a first layer of {low * nozzle:.2f} to {high * nozzle:.2f} mm",
            source=PRACTICE,
            worse=Verdict.GO_WITH_WORK,
        )
    ]


def line_width(case: Case) -> list[Finding]:
    """Lines about as wide as the nozzle, and wider than a layer is high."""
    nozzle, low, high = case.printer.nozzle_mm.value, *WIDTH_SHARES
    width = case.settings.line_width_mm.value
    return [
        compared(
            "line.width",
            "line width",
            measured=width,
            low=round(low * nozzle, 4),
            high=round(high * nozzle, 4),
            unit="mm",
            what="the line width",
            remedy=f"set a line width of {low * nozzle:.2f} to {high * nozzle:.2f} mm, or fit another nozzle",
            source=PRACTICE,
            worse=Verdict.NO_GO,
        ),
        compared(
            "line.shape",
            "line width",
            measured=width / case.settings.layer_height_mm.value,
            low=1.2,
            unit="x",
            what="the line width over the layer height",
            remedy="set thinner layers or wider lines: a bead is wider than high, or it does not bond",
            source="geometry of the stadium bead",
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
    """Nozzle and bed, within the material's range and the printer's reach."""
    found = []
    for name, own, material, reach in (
        ("nozzle", case.settings.nozzle_c, case.material.nozzle_c, case.printer.nozzle_max_c),
        ("bed", case.settings.bed_c, case.material.bed_c, case.printer.bed_max_c),
    ):
        value = (own or material).value
        found.append(
            compared(
                f"{name}.range",
                name,
                measured=value,
                low=material.low,
                high=material.high,
                unit="C",
                what=f"the {name} for {case.material.name}",
                remedy=f"set the {name} to {material.low:g} to {material.high:g} °C",
                source=material.source,
                worse=Verdict.GO_WITH_WORK,
            )
        )
        found.append(
            compared(
                f"{name}.reach",
                name,
                measured=value,
                high=reach.value,
                unit="C",
                what=f"the {name} asked of {case.printer.name}",
                remedy=f"choose a material for {reach.value:g} °C or less, or another printer",
                source=reach.source,
                worse=Verdict.NO_GO,
            )
        )
    return found


def speeds(case: Case) -> list[Finding]:
    """Speeds and acceleration within what the printer does; more is only a wrong estimate elsewhere."""
    settings, printer = case.settings, case.printer
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
            remedy=f"{printer.name} runs it at {printer.speed_max_mm_s.value:g} mm/s; the plan reckons with that",
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
            remedy=f"{printer.name} runs {printer.acceleration_max_mm_s2.value:g} mm/s2; the plan reckons with that",
            source=printer.acceleration_max_mm_s2.source,
            worse=Verdict.GO,
        ),
        compared(
            "speed.first",
            "first layer",
            measured=settings.first_layer_speed_mm_s.value,
            high=40.0,
            unit="mm/s",
            what="the first layer's speed",
            remedy="lay the first layer at 40 mm/s or less, so that it grips",
            source=PRACTICE,
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

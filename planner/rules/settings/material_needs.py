"""What a material asks of printer and room: enclosure, nozzle, fan, dry spools, air, a bed that is not too hot."""

from __future__ import annotations

from planner.finding import Evidence, Finding, Verdict
from planner.rules.settings.setting_rule import PRACTICE, Case, SettingRule, compared


def material_needs(case: Case) -> list[Finding]:
    """Enclosure, nozzle wear, cooling and drying that the material asks for."""
    material, printer = case.material, case.printer
    fan = case.fan_percent
    closed = printer.enclosed or not material.needs_enclosure
    lasts = printer.hardened_nozzle or not material.abrasive
    return [
        Finding(
            rule="material.enclosure",
            part="",
            feature=material.name,
            verdict=Verdict.GO if closed else Verdict.HOLD,
            why=f"{material.name} {'warps and splits' if material.needs_enclosure else 'prints'} in the open, "
            f"and {printer.name} is {'closed' if printer.enclosed else 'open'}",
            remedy="" if closed else "use an enclosed printer or another material",
            source=material.warp.source,
            evidence=Evidence.USUAL,
        ),
        Finding(
            rule="nozzle.wear",
            part="",
            feature=material.name,
            verdict=Verdict.GO if lasts else Verdict.GO_WITH_WORK,
            why=f"{material.name} {'wears a soft nozzle' if material.abrasive else 'does not wear nozzles'}, "
            f"and that of {printer.name} is {'hardened' if printer.hardened_nozzle else 'not hardened'}",
            remedy="" if lasts else "fit a hardened nozzle",
            source=PRACTICE,
            evidence=Evidence.USUAL,
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


def soft_bed(case: Case) -> list[Finding]:
    """Say where a bed hotter than the material softens at spreads the lowest layers."""
    bed, over = (case.settings.bed_c or case.material.bed_c).value, case.limit("bed.soft", "over_c")
    return [
        compared(
            "bed.soft",
            "bed",
            measured=bed,
            high=case.material.softens_c.value + over.value,
            unit="C",
            what="the bed",
            remedy="the lowest layers stay soft and spread: bores near the bed come out narrower",
            source=f"{case.material.softens_c.source}; margin of {over.value:g} °C: {over.source}",
            worse=Verdict.GO,
        )
    ]


def air(case: Case) -> list[Finding]:
    """Say that a material that gives off fumes wants ventilation."""
    if not case.material.fumes:
        return []
    return [
        Finding(
            rule="material.air",
            part="",
            feature="air",
            verdict=Verdict.GO,
            why=f"{case.material.name} gives off fumes while it prints",
            source=PRACTICE,
            caution="Ventilate the room, or print in an enclosure with its own exhaust; follow local rules.",
        )
    ]


def soft_duty(case: Case) -> list[Finding]:
    """Say which parts are soft by their duty and hard by their material: all of a job prints in one."""
    material = case.material
    soft = () if material.flexible else tuple(part.name for part in case.job.parts if part.duty == "soft")
    return [
        Finding(
            rule="material.soft",
            part=name,
            feature="duty",
            verdict=Verdict.GO,
            why=f"{name} has duty soft, but {material.name} is hard; its walls are judged, not whether it gives way",
            source=f"{material.name}: flexible = false in its profile",
            caution=f"{name} prints hard: print it from a flexible spool in a job of its own, or line it.",
        )
        for name in soft
    ]


RULES: tuple[SettingRule, ...] = (material_needs, soft_bed, air, soft_duty)

"""Support and bridges against each part at size: where they may be, what they cost, and what they ask for."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.pose import UPRIGHT_COS, uprightness
from planner.rules.settings.setting_rule import PRACTICE, Case, SettingRule, compared


def support_cost(case: Case) -> list[Finding]:
    """Say what support costs in grams and minutes, to lay and to take off, and where it is a good part of the whole."""
    density, found = case.material.density_g_cm3.value / 1000.0, []
    most, each, more = (case.limit("support.cost", key) for key in ("most_percent", "free_min", "free_min_cm2"))
    for name, estimate in case.estimates.items():
        if estimate.support_mm3 <= 0 or estimate.deposited_mm3 <= 0:
            continue
        share = estimate.support_mm3 / estimate.deposited_mm3
        minutes = estimate.kinds_s.get("support", 0.0) / 60.0
        lay = estimate.supported_mm2 / 100.0
        found.append(
            compared(
                "support.cost",
                "support",
                part=name,
                measured=100.0 * share,
                high=most.value,
                unit="%",
                what=f"support of {estimate.support_mm3 * density:.1f} g and {minutes:.0f} min a copy, under {lay:.1f} "
                f"cm² of it (about {each.value + more.value * lay:.0f} min to take off and smooth),",
                remedy="look for another pose, or cut the part in two",
                source=f"layer model; minutes by hand and limit: {most.source}",
                worse=Verdict.GO,
            )
        )
    return found


def support_inside(case: Case) -> list[Finding]:
    """Keep support out of bores, slots and channels: it can be drilled out of straight ones only."""
    found, most = [], case.limit("support.inside", "most_mm3")
    for name, estimate in case.estimates.items():
        if estimate.support_mm3 <= 0:
            continue
        for opening, space in estimate.support_inside_mm3.items():
            curved = opening.startswith("channel")
            found.append(
                compared(
                    "support.inside",
                    opening,
                    part=name,
                    measured=space,
                    high=most.value,
                    unit="mm3",
                    what=f"the support inside {opening}",
                    remedy="lay it another way: nothing gets support out of a bent channel"
                    if curved
                    else "pick it out and clean the walls, or lay the part another way",
                    source=f"layers in the chosen pose; limit: {most.source}",
                    worse=Verdict.NO_GO if curved else Verdict.GO_WITH_WORK,
                )
            )
    return found


def support_on_skin(case: Case) -> list[Finding]:
    """Keep support off the side that lies on skin: it leaves scars."""
    found = []
    for part in case.job.parts:
        estimate = case.estimates.get(part.name)
        if not part.skin_side or estimate is None or estimate.support_mm3 <= 0:
            continue
        down = case.downs.get(part.name)
        told = part.skin_toward is not None and down is not None
        facing = sum(a * d for a, d in zip(part.skin_toward or (), down or (), strict=False))
        hangs = told and facing > UPRIGHT_COS
        found.append(
            Finding(
                rule="support.skin",
                part=part.name,
                feature="skin side",
                verdict=Verdict.GO_WITH_WORK if hangs else Verdict.GO,
                measured=estimate.support_mm3,
                unit="mm3",
                why=f"{part.name} is printed with support, and its skin side "
                + ("faces down onto it" if hangs else "looks away from it" if told else "is not told"),
                remedy="smooth every place where support stood and pad it, or lay it with the skin side up"
                if hangs
                else "",
                source=PRACTICE,
                caution=""
                if told
                else "Support leaves scars: smooth where it stood, and pad it. skin_toward in the job tells the side.",
            )
        )
    return found


def lying_bores(case: Case) -> list[Finding]:
    """Say where a wide bore lies: its crown sags or is full of support."""
    found, most = [], case.limit("bore.crown", "most_mm")
    for name, survey in case.surveys.items():
        down = case.downs.get(name)
        if down is None:
            continue
        wide = [bore for bore in survey.bores if uprightness(bore.axis, down) < UPRIGHT_COS]
        largest = max((bore.drawn_diameter_mm * max(case.factors(name)) for bore in wide), default=None)
        if largest is not None:
            found.append(
                compared(
                    "bore.crown",
                    "widest horizontal bore",
                    part=name,
                    measured=largest,
                    high=most.value,
                    unit="mm",
                    what="the widest bore with a horizontal axis",
                    remedy="its top sags: stand the bore upright, or ream it round",
                    source=most.source,
                    worse=Verdict.GO,
                )
            )
    return found


def bridges(case: Case) -> list[Finding]:
    """Compare the speed and the fan where lines span over air with what they need to hold."""
    most, cool, short = (
        case.limit("bridge.speed", "most_mm_s"),
        case.limit("bridge.cool", "low_percent"),
        case.limit("bridge.cool", "short_mm"),
    )
    asked = case.settings.bridge_speed_mm_s or case.settings.outer_contour_speed_mm_s
    speed, fan, found = min(asked.value, case.printer.speed_max_mm_s.value), case.settings.fan_percent.value, []
    for name, estimate in case.estimates.items():
        if estimate.bridge_span_mm <= 0:
            continue
        span = f"spans up to {estimate.bridge_span_mm:.1f} mm over air"
        found.append(
            compared(
                "bridge.speed",
                "bridges",
                part=name,
                measured=speed,
                high=most.value,
                unit="mm/s",
                what=f"{name} {span}: the speed there",
                remedy=f"set bridge_speed_mm_s to {most.value:g} or less: fast lines tear or sag",
                source=most.source,
                worse=Verdict.GO_WITH_WORK,
            )
        )
        found.append(
            compared(
                "bridge.cool",
                "bridges",
                part=name,
                measured=fan,
                low=cool.value if estimate.bridge_span_mm > short.value else 0.0,
                unit="%",
                what=f"{name} {span}: the fan",
                remedy=f"give the fan {cool.value:g} % or more there, or look for sagged lines and trim them",
                source=cool.source,
                worse=Verdict.GO,
            )
        )
    return found


RULES: tuple[SettingRule, ...] = (
    support_cost,
    support_inside,
    support_on_skin,
    lying_bores,
    bridges,
)

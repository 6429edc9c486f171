"""The least layer time against the layers that there are: too short for small ones, or a wait that serves nothing."""

from __future__ import annotations

from planner.finding import Finding, Verdict
from planner.phrases import listed
from planner.rules.settings.setting_rule import TOLD_MOST, Case, SettingRule, compared


def least_layer(case: Case) -> list[Finding]:
    """Small layers must wait to cool; where no layer is short, the setting never acts and nothing is wrong with it."""
    least = case.settings.least_layer_s.value
    low, high, few = (case.limit("layer.cool", key) for key in ("low_s", "high_s", "few_layers"))
    known = case.layers_s
    short = {part: sum(seconds < low.value for seconds in layers) for part, layers in known.items()}
    soft = {part: layers_n for part, layers_n in short.items() if layers_n >= few.value}
    alone = "" if case.shared_s else " alone on a plate"
    if least < low.value and (soft or not (known or case.mildest)):
        of = f", with {max(soft.values())} shorter layers of {listed(soft, most_n=TOLD_MOST)}{alone}," if soft else ""
        return [
            compared(
                "layer.cool",
                "least layer time",
                measured=least,
                low=low.value,
                unit="s",
                what=f"the least layer time{of}",
                remedy=f"set least_layer_s to {low.value:g} or more, or print several at once: "
                "small layers stay soft and lean",
                source=low.source,
                worse=Verdict.GO_WITH_WORK,
            )
        ]
    if (known or case.mildest) and not any(seconds < least for layers in known.values() for seconds in layers):
        return [
            Finding(
                rule="layer.cool",
                part="",
                feature="least layer time",
                verdict=Verdict.GO,
                measured=least,
                unit="s",
                why=f"no layer is shorter than the least layer time of {least:g} s, so it changes nothing",
                source="layer model",
            )
        ]
    return [
        compared(
            "layer.cool",
            "least layer time",
            measured=least,
            high=high.value,
            unit="s",
            what="the least layer time",
            remedy=f"{high.value:g} s or less is usual: longer waits cost hours, and a waiting nozzle oozes",
            source=high.source,
            worse=Verdict.GO,
        )
    ]


def waits(case: Case) -> list[Finding]:
    """Say how long each part waits for its layers to cool when it is printed alone."""
    least, found = case.settings.least_layer_s.value, []
    for name, estimate in case.estimates.items():
        waiting = sum(max(least - seconds, 0.0) for seconds in estimate.layer_s)
        slow = waiting > estimate.duration_s and case.job.part(name).printed_n == 1
        found.append(
            Finding(
                rule="layer.wait",
                part=name,
                feature="small layers",
                verdict=Verdict.GO,
                measured=waiting,
                limit=estimate.duration_s,
                unit="s",
                why=f"alone on a plate it would wait {waiting / 60:.0f} min for its layers to cool",
                source="layers x least layer time less what they take",
                caution="Print it together with others, so that it does not wait." if slow else "",
            )
        )
    return found


RULES: tuple[SettingRule, ...] = (least_layer, waits)

"""The shape of a line and the nozzle: heights and widths that it lays, badly lays, and cannot lay."""

from __future__ import annotations

from collections.abc import Sequence

from planner.finding import Finding, Verdict
from planner.rules.settings.setting_rule import Case, SettingRule, compared
from planner.rules.settings.tidy_number import tidy_down, tidy_up
from planner.sourced import Sourced

NOZZLES = ("low_nozzles", "high_nozzles", "stop_low_nozzles", "stop_high_nozzles")
"""Keys of a range in nozzle diameters: outside it is work, beyond the stops it cannot be laid at all."""


def layer_height(case: Case) -> list[Finding]:
    """Compare the layer height with the nozzle: no layer is higher than the bore is wide."""
    ends, value = [case.limit("layer.height", key) for key in NOZZLES], case.settings.layer_height_mm.value
    return [_in_nozzles("layer.height", "layer height", case, value, ends, key="layer_height_mm")]


def first_layer(case: Case) -> list[Finding]:
    """Want a first layer thick enough to forgive the bed, thin enough to grip."""
    ends, value = [case.limit("layer.first", key) for key in NOZZLES], case.settings.first_layer_height_mm.value
    return [_in_nozzles("layer.first", "first layer", case, value, ends, key="first_layer_height_mm")]


def line_width(case: Case) -> list[Finding]:
    """Lines about as wide as the nozzle."""
    ends, value = [case.limit("line.width", key) for key in NOZZLES], case.settings.line_width_mm.value
    return [_in_nozzles("line.width", "line width", case, value, ends, key="line_width_mm")]


def _in_nozzles(rule: str, feature: str, case: Case, value_mm: float, ends: Sequence[Sourced], *, key: str) -> Finding:
    """Compare a height or width with a range in nozzle diameters."""
    nozzle = case.printer.nozzle_mm.value
    low, high, stop_low, stop_high = (round(end.value * nozzle, 4) for end in ends)
    stops = not stop_low - 1e-9 <= value_mm <= stop_high + 1e-9
    broken = ends[(0 if value_mm < low else 1) + (2 if stops else 0)]
    return compared(
        rule,
        feature,
        measured=value_mm,
        low=low,
        high=high,
        unit="mm",
        what=f"the {feature}",
        remedy=f"set {key} between {tidy_up(low, 0.01):g} and {tidy_down(high, 0.01):g} mm for a {nozzle:g} mm nozzle, "
        "or fit another nozzle" + (": as set, it cannot be laid at all" if stops else ""),
        source=broken.source,
        worse=Verdict.NO_GO if stops else Verdict.GO_WITH_WORK,
    )


def line_shape(case: Case) -> list[Finding]:
    """Lines wider than a layer is high, above the first layer and in it."""
    nozzle, others, first = (
        case.printer.nozzle_mm.value,
        case.settings.layer_height_mm,
        case.settings.first_layer_height_mm,
    )
    thinnest = case.limit("layer.height", "low_nozzles").value * nozzle
    share = case.limit("line.shape", "low_share")
    shape = _wider_than_high("line.shape", "layer height", case, others.value, share, thinnest, key="layer_height_mm")
    thinnest = case.limit("layer.first", "low_nozzles").value * nozzle
    share = case.limit("line.first", "low_share")
    key = "first_layer_height_mm"
    return [shape, _wider_than_high("line.first", "first layer", case, first.value, share, thinnest, key=key)]


def _wider_than_high(
    rule: str, feature: str, case: Case, height_mm: float, share: Sourced, thinnest_mm: float, *, key: str
) -> Finding:
    """Compare a height with the line width; where no height of that nozzle is low enough, the width with the height."""
    width = case.settings.line_width_mm.value
    high, wide = width / share.value, share.value * height_mm
    narrow = high < thinnest_mm
    return compared(
        rule,
        "line width" if narrow else feature,
        measured=width if narrow else height_mm,
        low=wide if narrow else None,
        high=None if narrow else high,
        unit="mm",
        what=f"the line width, for a {feature} of {height_mm:g} mm,"
        if narrow
        else f"the {feature}, for lines of {width:g} mm,",
        remedy=(
            f"set line_width_mm to {tidy_up(wide, 0.01):g} mm or more"
            if narrow
            else f"set {key} to {tidy_down(high, 0.01):g} mm or less, or wider lines"
        )
        + ": a line that is not clearly wider than high does not bond",
        source=share.source,
        worse=Verdict.GO_WITH_WORK,
    )


def even_layers(case: Case) -> list[Finding]:
    """Want the first layer no thinner than the others by far."""
    settings, even = case.settings, case.limit("layer.even", "low_share")
    return [
        compared(
            "layer.even",
            "first layer",
            measured=settings.first_layer_height_mm.value / settings.layer_height_mm.value,
            low=even.value,
            unit="x",
            what="the first layer's height over that of the others",
            remedy="a first layer much thinner than the others needs a bed that is flat to a tenth of a millimetre",
            source=even.source,
            worse=Verdict.GO,
        )
    ]


RULES: tuple[SettingRule, ...] = (layer_height, first_layer, line_width, line_shape, even_layers)

"""A printer's own profile: the profile it began with, the measured numbers put in, everything else as it stood."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence

from planner.calibrate.coupon_readings import Readings
from planner.calibrate.failure_families import FamilyRisk
from planner.sourced import Sourced


def own_profile(base_text: str, values: Mapping[str, Sourced | None], made_for: Readings | None) -> str:
    """Return the text of the profile with measured numbers put in, and what a coupon's hold for.

    ``values`` are by the profile's own keys: ``upright_mm``, ``lying_mm``, ``least_gap_mm``, ``time_ratio``,
    ``mass_ratio``, ``failure_per_hour``; None keeps what stands.
    """
    text = base_text
    for key, value in values.items():
        if value is not None:
            text = _put(text, key, value)
    if made_for is None:
        return text
    text = re.sub(r"(?m)^(calibrated|calibrated_for)\s*=.*\n", "", text)
    told = f'{{ material = "{made_for.material}", nozzle_mm = {made_for.nozzle_mm:g}, taken = {made_for.taken} }}'
    return _at_top(text, f"calibrated = true\ncalibrated_for = {told}\n")


def with_families(text: str, risks: Sequence[FamilyRisk]) -> str:
    """Return the text of a profile with ``[fails_by]`` renewed at its end; unchanged where a log counts no pieces."""
    if not risks:
        return text
    text = re.sub(r"(?ms)^\[fails_by\]\n.*?(?=^\[|\Z)", "", text).rstrip("\n")
    lines = [f"{_quoted(one.name)} = {_inline(one.ratio, '.4g')}" for one in risks]
    return "\n".join([text, "", "[fails_by]", *lines]) + "\n"


def _inline(value: Sourced, digits: str) -> str:
    """Return a number with its range and origin as an inline table."""
    low, high = min(value.low, value.value), max(value.high, value.value)
    told = f"value = {value.value:{digits}}, low = {low:{digits}}, high = {high:{digits}}"
    return f'{{ {told}, kind = "{value.kind}", source = {_quoted(value.source)} }}'


def _quoted(text: str) -> str:
    """Return a basic string of TOML, which quotes as JSON does."""
    return json.dumps(text, ensure_ascii=False)


def _at_top(text: str, lines: str) -> str:
    """Put lines before the first key, so that they belong to no table."""
    first = re.search(r"(?m)^\w+\s*=", text)
    at = first.start() if first else 0
    return text[:at] + lines + text[at:]


def _put(text: str, key: str, value: Sourced) -> str:
    """Put one measured number in the place of a key, wherever it stands, in a table of its own or inline."""
    digits = ".3f" if key.endswith("_mm") else ".4g"
    new = _inline(value, digits)
    stem = key.removesuffix("_mm")
    text = re.sub(rf"{stem}_(?:low|high)_mm\s*=\s*[-0-9.]+\s*,?\s*", "", text)
    text = re.sub(r",\s*\}", " }", text)  # an inline table bears no comma at its end
    if not re.search(rf"\b{key}\s*=", text):
        return _at_top(text, f"{key} = {new}\n")
    return re.sub(rf"\b{key}\s*=\s*(?:\{{[^}}]*\}}|[-0-9.]+)", lambda _: f"{key} = {new}", text, count=1)

"""A printer's own profile: the profile it began with, the measured numbers put in, everything else as it stood."""

from __future__ import annotations

import re

from planner.calibrate.fitted import Fitted
from planner.calibrate.readings import Readings
from planner.sourced import Sourced


def own_profile(base_text: str, found: Fitted, readings: Readings) -> str:
    """Return the text of the profile with the measured undersize and least gap, and for what they hold."""
    text = base_text
    changes = {"upright_mm": found.upright_mm, "lying_mm": found.lying_mm, "least_gap_mm": found.least_gap_mm}
    for key, value in changes.items():
        if value is not None:
            text = _put(text, key, value)
    text = re.sub(r"(?m)^(calibrated|calibrated_for)\s*=.*\n", "", text)
    told = f'{{ material = "{readings.material}", nozzle_mm = {readings.nozzle_mm:g}, taken = {readings.taken} }}'
    head = f"calibrated = true\ncalibrated_for = {told}\n"
    first = re.search(r"(?m)^\w+\s*=", text)
    at = first.start() if first else 0
    return text[:at] + head + text[at:]


def _put(text: str, key: str, value: Sourced) -> str:
    """Put one measured number in the place of a key, wherever it stands, in a table of its own or inline."""
    new = (
        f'{{ value = {value.value:.3f}, low = {value.low:.3f}, high = {value.high:.3f}, kind = "{value.kind}", '
        f'source = "{value.source}" }}'
    )
    stem = key.removesuffix("_mm")
    text = re.sub(rf"{stem}_(?:low|high)_mm\s*=\s*[-0-9.]+\s*,?\s*", "", text)
    text = re.sub(r",\s*\}", " }", text)  # an inline table bears no comma at its end
    return re.sub(rf"\b{key}\s*=\s*(?:\{{[^}}]*\}}|[-0-9.]+)", lambda _: f"{key} = {new}", text, count=1)

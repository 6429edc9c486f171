"""A filament material: how hot it prints, what it carries, how it warps, what it costs."""

from __future__ import annotations

from dataclasses import dataclass

from planner.sourced import Sourced, usual

WARP = usual(0.3)
FAN_PERCENT = usual(40.0)
MODULUS_MPA = Sourced(
    value=2000.0, low=900.0, high=3600.0, kind="memory", source="from memory: the range of stiff printed plastics"
)
POISSON_RATIO = Sourced(value=0.37, low=0.30, high=0.43, kind="memory", source="from memory: stiff printed plastics")
"""What a profile of your own may leave out; ranges are wide where they are guessed."""
SHEAR_SHARE = (0.55, 0.8, 1.1)
"""Shear strength between layers over the tensile strength across them: low, middle, high; from memory."""
MODULUS_SHARE = (0.7, 0.85, 1.0)
"""Modulus across the layers over that along them: low, middle, high; from memory."""
SERVICE_UNDER_C = 20.0
"""So far under softening a part is used where its profile says no more; from memory: deflection under 0.45 MPa lies
about 10 °C under the glass transition, and a loaded part stays another 10 °C below that."""


def service_from(softens_c: Sourced) -> Sourced:
    """Return the service temperature of a material whose profile gives only where it softens.

    >>> service_from(Sourced(value=80, low=80, high=85, kind="memory", source="x")).value
    60.0
    """
    return Sourced(
        value=softens_c.value - SERVICE_UNDER_C,
        low=softens_c.low - SERVICE_UNDER_C,
        high=softens_c.high - SERVICE_UNDER_C,
        kind="derived",
        source=f"softening ({softens_c.source}) less {SERVICE_UNDER_C:g} °C (from memory)",
    )


def _shared(of: Sourced, share: tuple[float, float, float], said: str) -> Sourced:
    """Return a share of a number, the ranges of both taken together."""
    low, middle, high = share
    return Sourced(
        value=of.value * middle,
        low=of.low * low,
        high=of.high * high,
        kind="derived",
        source=f"{low:g} to {high:g} of {said} ({of.source}); the share from memory",
    )


def shear_from(across_mpa: Sourced) -> Sourced:
    """Return the shear strength between layers of a material whose profile leaves it out.

    >>> shear_from(Sourced(value=30, low=25, high=40, kind="memory", source="x")).value
    24.0
    """
    return _shared(across_mpa, SHEAR_SHARE, "the strength across the layers")


def modulus_across_from(along_mpa: Sourced) -> Sourced:
    """Return the modulus across the layers of a material whose profile leaves it out.

    >>> modulus_across_from(Sourced(value=2000, low=1000, high=3000, kind="memory", source="x")).value
    1700.0
    """
    return _shared(along_mpa, MODULUS_SHARE, "the modulus along the layers")


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material."""

    name: str
    about: str
    """What it is good for, in words."""
    density_g_cm3: Sourced
    """Density of the solid plastic."""
    softens_c: Sourced
    """Where it begins to soften."""
    service_c: Sourced
    """The hottest at which a part keeps its shape under load: softens_c less a margin."""
    nozzle_c: Sourced
    """Nozzle temperature, with the range that the material allows."""
    bed_c: Sourced
    """Bed temperature, with the range that the material allows."""
    melt_rate_mm3_s: Sourced
    """The most of it that an ordinary hot end melts."""
    needs_enclosure: bool = False
    """Whether it needs a closed cabinet."""
    abrasive: bool = False
    """Whether it wears an ordinary nozzle."""
    fumes: bool = False
    """Whether enclosure and ventilation are the usual caution."""
    flexible: bool = False
    """Whether it bends like rubber."""
    dry_first: bool = False
    """Whether it takes up water and is dried before printing."""
    strength_along_mpa: Sourced
    """Tensile strength along the lines."""
    strength_across_layers_mpa: Sourced
    """Tensile strength from layer to layer."""
    shear_mpa: Sourced
    """Shear strength from layer to layer."""
    modulus_along_mpa: Sourced = MODULUS_MPA
    """Young's modulus in the plane of the layers."""
    modulus_across_mpa: Sourced
    """Young's modulus from layer to layer."""
    poisson_ratio: Sourced = POISSON_RATIO
    """Poisson's ratio: how much it narrows where it is stretched."""
    warp: Sourced = WARP
    """How readily it warps, from 0 (not) to 1 (strongly)."""
    fan_percent: Sourced = FAN_PERCENT
    """Fan speed, with the range that the material allows."""
    price_per_kg: Sourced
    """An example price in the job's currency."""

"""Numbers that a material's profile may leave out come from others with a wider range, and say so."""

from __future__ import annotations

import pytest

from planner.job.profiles.material import modulus_across_from, service_from, shear_from
from planner.sourced import Sourced

KNOWN = Sourced(value=80.0, low=70.0, high=100.0, kind="measured", source="a test")


@pytest.mark.parametrize("derived", [service_from, shear_from, modulus_across_from])
def test_what_is_derived_is_less_and_says_from_what(derived: object) -> None:
    """Service temperature, shear and the modulus across lie below what they come from, in order, as derived numbers."""
    assert callable(derived)
    found = derived(KNOWN)

    assert found.low <= found.value <= found.high
    assert found.value < KNOWN.value
    assert found.kind == "derived"
    assert "a test" in found.source


def test_a_share_widens_the_range() -> None:
    """The ranges of the number and of the share go together: relative to the value both ends are farther out."""
    found = shear_from(KNOWN)

    assert found.low / found.value <= KNOWN.low / KNOWN.value
    assert found.high / found.value >= KNOWN.high / KNOWN.value
